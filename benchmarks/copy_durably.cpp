// copy_durably FROM TO: what a careful copy costs and no more: read, write beside the target,
// flush, rename, flush the folder. The baseline for commands that write an image.

#include <cstdio>
#include <fcntl.h>
#include <string>
#include <unistd.h>

int main(int count, char** words) {
  if (count != 3) return 2;
  char bytes[65536];
  const int from = ::open(words[1], O_RDONLY);
  const ssize_t size = ::read(from, bytes, sizeof bytes);
  const std::string to = words[2], beside = to + ".part";
  const int part = ::open(beside.c_str(), O_WRONLY | O_CREAT | O_TRUNC, 0666);
  if (size < 0 || part < 0 || ::write(part, bytes, static_cast<std::size_t>(size)) != size ||
      ::fsync(part) != 0 || ::close(part) != 0 || ::rename(beside.c_str(), to.c_str()) != 0)
    return 3;
  const auto slash = to.rfind('/');
  const int folder = ::open(slash == std::string::npos ? "." : to.substr(0, slash).c_str(),
                            O_RDONLY | O_DIRECTORY);
  return ::fsync(folder) == 0 ? 0 : 3;
}
