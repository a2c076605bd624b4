#include "board.h"

#include <stdexcept>

extern "C" {
#include <avr_extint.h>
#include <avr_ioport.h>
#include <avr_uart.h>
#include <sim_avr.h>
#include <sim_hex.h>
}

namespace rtcmend::test {

namespace {

// Data addresses of an ATmega328P.
constexpr avr_io_addr_t pin_b = 0x23, pin_c = 0x26, pin_d = 0x29, adc_low = 0x78, adc_high = 0x79,
                        adc_control = 0x7A, adc_mux = 0x7C;
constexpr std::uint8_t adc_start = 1 << 6;
/// 13 clocks of the converter, which runs at a 128th.
constexpr std::uint64_t conversion = 13 * 128;
/// The simulated port takes 11 bits a character.
constexpr std::uint64_t clocks_a_character = clocks_per_second / 38400 * 11 + 8;

}  // namespace

/// What libsimavr calls back with.
struct SimulatedBoard::Hooks {
  SimulatedBoard* board;
  std::uint64_t conversion_ends = 0;

  static void write_pin(avr_t* avr, avr_io_addr_t at, std::uint8_t value, void* self) {
    avr->data[at] = value;
    SimulatedBoard& board = *static_cast<Hooks*>(self)->board;
    const auto* data = avr->data;
    board.bench_.pins(board.now(), {data[pin_b + 2], data[pin_b + 1], data[pin_c + 2],
                                    data[pin_c + 1], data[pin_d + 2], data[pin_d + 1]});
  }

  static std::uint8_t read_pin(avr_t*, avr_io_addr_t at, void* self) {
    SimulatedBoard& board = *static_cast<Hooks*>(self)->board;
    return board.bench_.read(board.now(), at == pin_b ? 'B' : at == pin_c ? 'C' : 'D');
  }

  static void write_adc(avr_t* avr, avr_io_addr_t at, std::uint8_t value, void* self) {
    avr->data[at] = value;
    auto& hooks = *static_cast<Hooks*>(self);
    if ((value & adc_start) == 0) return;
    const std::uint64_t ends = hooks.board->now() + conversion;
    const int rail = hooks.board->bench_.faults.rail_millivolts;
    const bool reference = (avr->data[adc_mux] & 15) == 14;
    const int millivolts = reference ? 1100 : hooks.board->bench_.chip_millivolts(ends);
    const int steps = std::min(1023, millivolts * 1024 / rail);
    avr->data[adc_low] = static_cast<std::uint8_t>(steps & 0xFF);
    avr->data[adc_high] = static_cast<std::uint8_t>(steps >> 8);
    hooks.conversion_ends = ends;
  }

  static std::uint8_t read_adc(avr_t* avr, avr_io_addr_t at, void* self) {
    auto& hooks = *static_cast<Hooks*>(self);
    if (hooks.board->now() >= hooks.conversion_ends)
      avr->data[at] = static_cast<std::uint8_t>(avr->data[at] & ~adc_start);
    return avr->data[at];
  }

  static std::uint8_t plain(avr_t* avr, avr_io_addr_t at, void*) { return avr->data[at]; }

  static void sent(avr_irq_t*, std::uint32_t value, void* self) {
    static_cast<Hooks*>(self)->board->from_board_ += static_cast<char>(value);
  }

  void on_write(avr_t* avr, avr_io_addr_t at, avr_io_write_t call) {
    avr->io[AVR_DATA_TO_IO(at)].w.c = call;
    avr->io[AVR_DATA_TO_IO(at)].w.param = this;
  }
  void on_read(avr_t* avr, avr_io_addr_t at, avr_io_read_t call) {
    avr->io[AVR_DATA_TO_IO(at)].r.c = call;
    avr->io[AVR_DATA_TO_IO(at)].r.param = this;
  }
};

SimulatedBoard::SimulatedBoard(const std::string& hex_file, Bench& bench)
    : hex_file_(hex_file), bench_(bench), hooks_(std::make_unique<Hooks>(Hooks{this})) {
  start();
}

SimulatedBoard::~SimulatedBoard() {
  avr_terminate(avr_);
}

void SimulatedBoard::start() {
  avr_ = avr_make_mcu_by_name("atmega328p");
  if (avr_ == nullptr) throw std::runtime_error("libsimavr knows no atmega328p");
  avr_init(avr_);
  avr_->frequency = clocks_per_second;
  avr_->log = LOG_ERROR;
  avr_->sleep = [](avr_t*, avr_cycle_count_t) {};  // its own waits in real time
  std::uint32_t size = 0, base = 0;
  std::uint8_t* code = read_ihex_file(hex_file_.c_str(), &size, &base);
  if (code == nullptr) throw std::runtime_error("no firmware in " + hex_file_);
  avr_loadcode(avr_, code, size, base);
  free(code);
  avr_->codeend = avr_->flashend;
  for (const int interrupt : {0, 1})  // else it looks at them each clock
    avr_extint_set_strict_lvl_trig(avr_, static_cast<std::uint8_t>(interrupt), 0);
  for (const avr_io_addr_t pin : {pin_b, pin_c, pin_d}) {
    hooks_->on_read(avr_, pin, Hooks::read_pin);
    for (int i = 1; i <= 2; ++i)
      hooks_->on_write(avr_, static_cast<avr_io_addr_t>(pin + i), Hooks::write_pin);
  }
  hooks_->on_write(avr_, adc_control, Hooks::write_adc);
  hooks_->on_read(avr_, adc_control, Hooks::read_adc);
  for (const avr_io_addr_t at : {adc_low, adc_high}) hooks_->on_read(avr_, at, Hooks::plain);
  std::uint32_t flags = 0;
  avr_ioctl(avr_, AVR_IOCTL_UART_GET_FLAGS('0'), &flags);
  flags &= ~static_cast<std::uint32_t>(AVR_UART_FLAG_STDIO | AVR_UART_FLAG_POLL_SLEEP);
  avr_ioctl(avr_, AVR_IOCTL_UART_SET_FLAGS('0'), &flags);
  avr_irq_register_notify(avr_io_getirq(avr_, AVR_IOCTL_UART_GETIRQ('0'), UART_IRQ_OUTPUT),
                          Hooks::sent, hooks_.get());
}

std::uint64_t SimulatedBoard::now() const {
  return before_ + avr_->cycle;
}

void SimulatedBoard::feed() {
  if (to_board_.empty() || now() < next_feed_) return;
  avr_raise_irq(avr_io_getirq(avr_, AVR_IOCTL_UART_GETIRQ('0'), UART_IRQ_INPUT),
                static_cast<std::uint8_t>(to_board_.front()));
  to_board_.pop_front();
  next_feed_ = now() + clocks_a_character;
}

void SimulatedBoard::run(std::uint64_t clocks) {
  const std::uint64_t until = now() + clocks;
  while (now() < until) {
    feed();
    const int state = avr_run(avr_);
    if (state == cpu_Done || state == cpu_Crashed)
      throw std::runtime_error("the simulated processor stopped");
  }
}

void SimulatedBoard::send(std::string_view characters) {
  to_board_.insert(to_board_.end(), characters.begin(), characters.end());
}

std::string SimulatedBoard::take() {
  return std::exchange(from_board_, {});
}

void SimulatedBoard::reset() {
  // A new processor: libsimavr's own reset forgets its timers and keeps stale levels.
  before_ = now();
  avr_terminate(avr_);
  to_board_.clear();
  start();
  bench_.pins(now(), {});
}

}  // namespace rtcmend::test

// libsimavr never gives back what it allocates for a processor: not what the sanitizers are to
// find.

#ifndef __has_feature
#define __has_feature(feature) 0
#endif

#if defined(__SANITIZE_ADDRESS__) || __has_feature(address_sanitizer)
extern "C" const char* __lsan_default_options();
extern "C" const char* __lsan_default_options() {
  return "print_suppressions=0";
}

extern "C" const char* __lsan_default_suppressions();
extern "C" const char* __lsan_default_suppressions() {
  return "leak:libsimavr\n";
}
#endif
