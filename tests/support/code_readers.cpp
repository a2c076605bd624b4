#include "support/code_readers.h"

#include <catch2/catch.hpp>
#include <filesystem>
#include <fmt/format.h>
#include <fstream>

#include "base/text.h"
#include "support/run_program.h"
#include "support/temporary_folder.h"

namespace rtcmend::test {

namespace {

std::string name_of(std::size_t number) {
  return fmt::format("{:05}.pgm", number);
}

/// "P5" is the grey map of Netpbm (its pgm manual page).
void write_picture(const std::filesystem::path& path, const Picture& picture) {
  std::ofstream file(path, std::ios::binary);
  file << fmt::format("P5\n{} {}\n255\n", picture.width, picture.height);
  file.write(reinterpret_cast<const char*>(picture.grey.data()),
             static_cast<std::streamsize>(picture.grey.size()));
}

std::vector<std::string> command(CodeReader reader) {
  if (reader == CodeReader::zbar)
    return {"zbarimg", "--xml", "--quiet", "-Sdisable", "-Sqrcode.enable"};
  return {"ZXingReader", "-1", "-format", "QRCode"};
}

/// Which picture a line of the program's output begins to speak of, if any: the name is in it.
std::size_t number_in(std::string_view line) {
  const std::size_t dot = line.find(".pgm");
  if (dot == std::string_view::npos || dot < 5) return std::string::npos;
  return std::stoul(std::string(line.substr(dot - 5, 5)));
}

/// The letters of codes in a line; they have no small ones, and these programs' words have.
std::string code_in(std::string_view line) {
  const std::size_t mark = line.find("RTCMEND");
  if (mark == std::string_view::npos) return {};
  const std::size_t end = line.find_first_not_of("0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ/", mark);
  return std::string(line.substr(mark, end - mark));
}

}  // namespace

bool has(CodeReader reader) {
  Start start;
  start.program = "/usr/bin/env";
  start.arguments = {"sh", "-c", "command -v " + command(reader).front()};
  if (run_program(start).code == 0) return true;
  WARN("left out, for it is not installed (scripts/packages.sh test): " << command(reader).front());
  return false;
}

std::vector<std::string> read_codes(CodeReader reader, const std::vector<Picture>& pictures) {
  const TemporaryFolder folder;
  Start start;
  start.program = "/usr/bin/env";
  start.folder = folder.path().string();
  start.arguments = command(reader);
  for (std::size_t i = 0; i < pictures.size(); ++i) {
    write_picture(folder.path() / name_of(i), pictures[i]);
    start.arguments.push_back(name_of(i));
  }
  const Ran ran = run_program(start);
  std::vector<std::string> found(pictures.size());
  std::size_t number = std::string::npos;
  for (const std::string_view line : lines(ran.out)) {
    if (const std::size_t begins = number_in(line); begins != std::string::npos) number = begins;
    const std::string code = code_in(line);
    if (code.empty() || number >= found.size()) continue;
    found[number] += (found[number].empty() ? "" : " ") + code;
  }
  return found;
}

}  // namespace rtcmend::test
