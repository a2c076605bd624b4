#include "discover/families.h"

#include <map>
#include <random>

namespace rtcmend {

namespace {

// Two different rules agree in one trial image with a chance of 1/2 at most.
constexpr std::size_t trials = 40;

std::vector<Evidence::Bytes> trial_images(const Evidence& evidence) {
  std::mt19937 random;  // always the same numbers: a family must not depend on the run
  std::vector<Evidence::Bytes> images(trials, evidence.dumps[0]);
  for (Evidence::Bytes& image : images)
    for (std::size_t at = 0; at < image.size(); ++at)
      if (evidence.varies[at]) image[at] = static_cast<std::uint8_t>(random() >> 11);
  return images;
}

std::vector<std::string> asked_by(const Evidence& evidence,
                                  const std::vector<Evidence::Bytes>& images, const Fit& fit) {
  const Form& form = fit.form;
  const auto plain_in = [&](const Evidence::Bytes& image) {
    return plain_value(form, covered_in(evidence, image, fit.range));
  };
  const std::uint16_t constant =
      constant_between(form, plain_in(evidence.dumps[0]),
                       stored_in(evidence.dumps[0], fit.at, fit.order, form.width));
  std::vector<std::string> asked(form.width / 8);
  for (const Evidence::Bytes& image : images) {
    const std::uint16_t value = stored_value(form, constant, plain_in(image));
    const bool low_first = form.width == 8 || fit.order == Order::low_first;
    asked[0] += static_cast<char>(low_first ? value & 0xFF : value >> 8);
    if (form.width == 16) asked[1] += static_cast<char>(low_first ? value >> 8 : value & 0xFF);
  }
  return asked;
}

}  // namespace

std::vector<Kin> gather_families(const Evidence& evidence, const std::vector<Fit>& fits) {
  const std::vector<Evidence::Bytes> images = trial_images(evidence);
  std::vector<Kin> families;
  std::map<std::pair<Address, std::vector<std::string>>, std::size_t> index;
  for (const Fit& fit : fits) {
    std::vector<std::string> asked = asked_by(evidence, images, fit);
    const auto [found, is_new] = index.try_emplace({fit.at, asked}, families.size());
    if (is_new) families.push_back({{}, fit.at, fit.form.width, std::move(asked)});
    families[found->second].members.push_back(fit);
  }
  return families;
}

bool is_part_of(const Kin& part, const Kin& whole) {
  if (part.width != 8 || whole.width != 16) return false;
  if (part.at != whole.at && part.at != whole.at + 1) return false;
  return part.asked[0] == whole.asked[static_cast<std::size_t>(part.at - whole.at)];
}

}  // namespace rtcmend
