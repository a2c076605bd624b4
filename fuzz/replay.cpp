// Stands in for libFuzzer where there is none: runs a target once on every file of the folders
// named, so that what was found once stays mended.
#include <cstdint>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <sstream>

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t size);

int main(int argc, char** argv) {
  int files = 0;
  for (int i = 1; i < argc; ++i) {
    if (!std::filesystem::is_directory(argv[i])) continue;
    for (const auto& file : std::filesystem::directory_iterator(argv[i])) {
      std::ostringstream content;
      content << std::ifstream(file.path(), std::ios::binary).rdbuf();
      const std::string bytes = content.str();
      std::printf("%s\n", file.path().filename().c_str());
      std::fflush(stdout);
      LLVMFuzzerTestOneInput(reinterpret_cast<const std::uint8_t*>(bytes.data()), bytes.size());
      ++files;
    }
  }
  std::printf("%d files\n", files);
  return files > 0 ? 0 : 1;
}
