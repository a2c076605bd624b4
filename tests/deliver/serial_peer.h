#pragma once

#include <string>
#include <thread>

namespace rtcmend::test {

/// The other end of DOSBox's serial cable: a socket of this machine that keeps what comes.
class SerialPeer {
 public:
  SerialPeer();
  ~SerialPeer();
  SerialPeer(const SerialPeer&) = delete;
  SerialPeer& operator=(const SerialPeer&) = delete;

  /// What DOSBox's configuration says of its first serial port.
  std::string configuration() const;
  /// Everything that came, once DOSBox has hung up.
  std::string received();

 private:
  void receive();

  int listening_ = -1;
  std::string bytes_;
  std::thread receiver_;
};

}  // namespace rtcmend::test
