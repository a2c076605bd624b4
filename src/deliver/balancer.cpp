#include "deliver/balancer.h"

namespace rtcmend {

void fill_stretch(Program& program, const Runs& runs, std::uint16_t list_at) {
  const std::size_t which = runs.balanced->run;
  const Run& stretch = runs.ram[which];
  std::vector<std::uint8_t> up_to_it;
  append_runs(up_to_it, joined({runs.spoil, runs.clock}));
  for (std::size_t i = 0; i <= which; ++i) append_runs(up_to_it, {runs.ram[i]});
  const auto spoiled = static_cast<std::uint16_t>(list_at + 2);  // behind address and count
  const auto count = static_cast<unsigned>(stretch.bytes.size());
  const unsigned last = 0x80U | (stretch.first + count - 1);  // port 70h: NMI off
  program.fill_word("spoiled", spoiled);
  program.fill_word("spoiled_too", spoiled);
  program.fill_word("last_byte", static_cast<std::uint16_t>(list_at + up_to_it.size() - 1));
  program.fill_word("last_address", static_cast<std::uint16_t>((count + 1) << 8 | last));
}

}  // namespace rtcmend
