#pragma once

#include <random>

#include "support/code_readers.h"

namespace rtcmend::test {

/// How a photograph of a screen comes out.
struct Pose {
  double yaw = 0, pitch = 0;  ///< degrees by which the camera looks past the screen's normal
  double tilt = 0;            ///< degrees by which it is turned in its own plane
  double shrunk = 1;          ///< of the glass, 800 by 600 points
  double blur = 0;            ///< standard deviation, points of the photograph
  double noise = 0;           ///< standard deviation, of 255
};

/// A pose at random: up to 15 degrees to either side and up or down, up to 10 of tilt, half the
/// size, a blur of up to one point and noise of up to 16.
Pose random_pose(std::mt19937& random);

/// The glass that shows `screen`, four by three whatever its points are, as a camera sees it from
/// twice its width away.
Picture photograph(const Picture& screen, const Pose& pose, std::mt19937& random);

/// The upper left part of a picture.
Picture cropped(const Picture& picture, int width, int height);

}  // namespace rtcmend::test
