#include "deliver/code_pictures.h"

#include <catch2/catch.hpp>
#include <chrono>
#include <sstream>
#include <thread>

namespace rtcmend::test {

TakenPicture take_until_read(const std::function<Picture()>& take, CodeReader reader) {
  const auto end = std::chrono::steady_clock::now() + std::chrono::seconds(30);
  while (std::chrono::steady_clock::now() < end) {
    TakenPicture taken{take(), {}};
    taken.text = read_codes(reader, {taken.picture}).front();
    if (!taken.text.empty()) return taken;
    std::this_thread::sleep_for(std::chrono::milliseconds(150));
  }
  FAIL("no picture of the screen showed a code");
  return {};
}

Picture from_netpbm(const std::string& content) {
  std::istringstream in(content);
  std::string kind;
  int most = 0;
  Picture picture;
  in >> kind >> picture.width >> picture.height >> most;
  in.get();
  const std::size_t colours = kind == "P6" ? 3 : 1;
  std::string pixels(std::istreambuf_iterator<char>(in), {});
  REQUIRE(pixels.size() == colours * static_cast<std::size_t>(picture.width) *
                               static_cast<std::size_t>(picture.height));
  for (std::size_t i = colours / 2; i < pixels.size(); i += colours)
    picture.grey.push_back(static_cast<std::uint8_t>(pixels[i]));
  return picture;
}

}  // namespace rtcmend::test
