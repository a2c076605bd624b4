#include "deliver/serial_peer.h"

#include <arpa/inet.h>
#include <array>
#include <catch2/catch.hpp>
#include <sys/socket.h>
#include <unistd.h>

namespace rtcmend::test {

SerialPeer::SerialPeer() : listening_(socket(AF_INET, SOCK_STREAM, 0)) {
  sockaddr_in address{};
  address.sin_family = AF_INET;
  address.sin_addr.s_addr = htonl(INADDR_LOOPBACK);  // and any port that is free
  REQUIRE(bind(listening_, reinterpret_cast<const sockaddr*>(&address), sizeof address) == 0);
  REQUIRE(listen(listening_, 1) == 0);
  receiver_ = std::thread([this] { receive(); });
}

SerialPeer::~SerialPeer() {
  shutdown(listening_, SHUT_RDWR);  // ends an accept that nobody answered
  if (receiver_.joinable()) receiver_.join();
  close(listening_);
}

std::string SerialPeer::configuration() const {
  sockaddr_in address{};
  socklen_t size = sizeof address;
  getsockname(listening_, reinterpret_cast<sockaddr*>(&address), &size);
  return "[serial]\nserial1=nullmodem server:127.0.0.1 port:" +
         std::to_string(ntohs(address.sin_port)) + " transparent:1\n";
}

void SerialPeer::receive() {
  const int cable = accept(listening_, nullptr, nullptr);
  std::array<char, 256> some{};
  for (ssize_t count; cable >= 0 && (count = read(cable, some.data(), some.size())) > 0;)
    bytes_.append(some.data(), static_cast<std::size_t>(count));
  close(cable);
}

std::string SerialPeer::received() {
  if (receiver_.joinable()) receiver_.join();
  return bytes_;
}

}  // namespace rtcmend::test
