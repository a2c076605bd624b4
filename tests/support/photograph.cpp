#include "support/photograph.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace rtcmend::test {

namespace {

constexpr double glass_width = 800, glass_height = 600;
constexpr double distance = 2 * glass_width;
constexpr double margin = 1.3;  // what the camera sees beside the glass
constexpr int samples = 3;      // a side, for each point of the photograph

double radians(double degrees) {
  return degrees * 3.14159265358979 / 180;
}

std::size_t place(const Picture& picture, int x, int y) {
  return static_cast<std::size_t>(y) * static_cast<std::size_t>(picture.width) +
         static_cast<std::size_t>(x);
}

/// Where the ray through a point of the image plane meets the glass, both from their middles.
struct Spot {
  double x, y;
};
Spot on_the_glass(double x, double y, const Pose& pose) {
  const double c = std::cos(radians(pose.tilt)), s = std::sin(radians(pose.tilt));
  const double dx = c * x + s * y, dy = c * y - s * x;
  // The glass is spanned by two arms, turned about the upright axis and then about the level one.
  const double cy = std::cos(radians(pose.yaw)), sy = std::sin(radians(pose.yaw));
  const double cp = std::cos(radians(pose.pitch)), sp = std::sin(radians(pose.pitch));
  const std::array<double, 3> right{cy, sy * sp, sy * cp}, down{0, cp, -sp};
  // u * right + v * down + (0, 0, distance) = t * (dx, dy, distance)
  const double a = right[0] - dx * right[2] / distance, b = down[0] - dx * down[2] / distance;
  const double d = right[1] - dy * right[2] / distance, e = down[1] - dy * down[2] / distance;
  const double whole = a * e - b * d;
  return {(dx * e - b * dy) / whole, (a * dy - dx * d) / whole};
}

double light_at(const Picture& screen, const Spot& spot) {
  const double x = (spot.x / glass_width + 0.5) * screen.width;
  const double y = (spot.y / glass_height + 0.5) * screen.height;
  if (x < 0 || y < 0 || x >= screen.width || y >= screen.height) return 20;  // the room is dim
  return screen.grey[place(screen, static_cast<int>(x), static_cast<int>(y))];
}

using Light = std::vector<double>;

/// Along one direction: `step` from a point to the next, `count` of them on each of `lines` lines.
void blur_along(Light& light, std::size_t step, std::size_t count, std::size_t line_step,
                std::size_t lines, double deviation) {
  const int reach = static_cast<int>(std::ceil(3 * deviation));
  std::vector<double> weights;
  for (int i = -reach; i <= reach; ++i)
    weights.push_back(std::exp(-i * i / (2 * deviation * deviation)));
  std::vector<double> line(count);
  for (std::size_t number = 0; number < lines; ++number) {
    for (std::size_t i = 0; i < count; ++i) line[i] = light[number * line_step + i * step];
    for (std::size_t i = 0; i < count; ++i) {
      double sum = 0, whole = 0;
      for (int k = -reach; k <= reach; ++k) {
        const auto at = static_cast<std::ptrdiff_t>(i) + k;
        if (at < 0 || at >= static_cast<std::ptrdiff_t>(count)) continue;
        const double weight = weights[static_cast<std::size_t>(k + reach)];
        sum += weight * line[static_cast<std::size_t>(at)];
        whole += weight;
      }
      light[number * line_step + i * step] = sum / whole;
    }
  }
}

}  // namespace

Pose random_pose(std::mt19937& random) {
  const auto between = [&](double low, double high) {
    return low + (high - low) * static_cast<double>(random() & 0xFFFF) / 0xFFFF;
  };
  return {between(-15, 15), between(-15, 15), between(-10, 10), 0.5,
          between(0.1, 1),  between(0, 16)};
}

Picture photograph(const Picture& screen, const Pose& pose, std::mt19937& random) {
  Picture photo{static_cast<int>(glass_width * margin * pose.shrunk),
                static_cast<int>(glass_height * margin * pose.shrunk),
                {}};
  Light light;
  for (int y = 0; y < photo.height; ++y)
    for (int x = 0; x < photo.width; ++x) {
      double sum = 0;
      for (int i = 0; i < samples * samples; ++i)
        sum += light_at(
            screen,
            on_the_glass((x + (i % samples + 0.5) / samples - photo.width / 2.0) / pose.shrunk,
                         (y + (i / samples + 0.5) / samples - photo.height / 2.0) / pose.shrunk,
                         pose));
      light.push_back(sum / (samples * samples));
    }
  const auto width = static_cast<std::size_t>(photo.width),
             height = static_cast<std::size_t>(photo.height);
  if (pose.blur > 0) {
    blur_along(light, 1, width, width, height, pose.blur);
    blur_along(light, width, height, 1, width, pose.blur);
  }
  for (const double value : light) {
    double noise = -6;  // twelve dice from 0 to 1 have a deviation of 1
    for (int i = 0; i < 12; ++i) noise += static_cast<double>(random() & 0xFFFF) / 0xFFFF;
    photo.grey.push_back(
        static_cast<std::uint8_t>(std::clamp(value + pose.noise * noise, 0.0, 255.0)));
  }
  return photo;
}

Picture cropped(const Picture& picture, int width, int height) {
  Picture part{width, height, {}};
  for (int y = 0; y < height; ++y)
    for (int x = 0; x < width; ++x) part.grey.push_back(picture.grey[place(picture, x, y)]);
  return part;
}

}  // namespace rtcmend::test
