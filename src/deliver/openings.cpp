#include "deliver/openings.h"

#include <algorithm>
#include <array>

#include "base/error.h"
#include "base/near_miss.h"
#include "base/text.h"

namespace rtcmend {

namespace {

struct Entry {
  std::string_view name, question;
};

constexpr std::array<Entry, have_count> entries{{
    {"floppy", "Does it start from a floppy?"},
    {"dos", "Does it come to a DOS prompt?"},
    {"writable", "Does a disk there take a file (COPY CON T, X, F6)?"},
    {"debugger", "Does DOS bring its debugger (DEBUG)?"},
    {"basic", "Does a BASIC start?"},
    {"serial", "Is there a serial cable to another computer?"},
    {"chip-out",
     "Is the chip a potted one that comes out of its socket, and is there a programmer?"},
}};

bool all_there(const std::set<Have>& have, std::initializer_list<Have> wanted) {
  return std::all_of(wanted.begin(), wanted.end(), [&](Have one) { return have.contains(one); });
}

}  // namespace

std::string_view name(Have have) {
  return entries.at(static_cast<std::size_t>(have)).name;
}

std::string_view question(Have have) {
  return entries.at(static_cast<std::size_t>(have)).question;
}

std::vector<Have> all_haves() {
  std::vector<Have> all;
  for (int i = 0; i < have_count; ++i) all.push_back(static_cast<Have>(i));
  return all;
}

std::set<Have> haves_named(std::string_view list) {
  std::set<Have> all;
  std::vector<std::string> names;
  for (const Have have : all_haves()) names.emplace_back(name(have));
  while (!list.empty()) {
    const std::string_view word = trim(list.substr(0, list.find(',')));
    list.remove_prefix(std::min(
        list.size(), list.find(',') == std::string_view::npos ? list.size() : list.find(',') + 1));
    const auto found = std::find(names.begin(), names.end(), word);
    if (found == names.end())
      refuse_choice("have", "there is no " + printable(std::string(word)),
                    near_or_all(std::string(word), names));
    all.insert(static_cast<Have>(found - names.begin()));
  }
  return all;
}

std::vector<Opening> openings(const std::set<Have>& have) {
  const bool dos = have.contains(Have::dos);
  const bool file_comes = have.contains(Have::floppy) || have.contains(Have::serial);
  std::vector<Opening> all{
      {Way::boot_floppy, have.contains(Have::floppy), "a floppy drive that the machine starts from",
       "know the drive: the image must be made for the disk format that it reads"},
      {Way::dos_program, dos && file_comes,
       "a DOS prompt, and a floppy or a cable that brings the program",
       "start the machine, or bring itself there"},
      {Way::debugger_script, all_there(have, {Have::dos, Have::debugger}),
       "a DOS prompt with the debugger; no disk that can be written",
       "ask for the time, look before it writes, restore at each start"},
      {Way::keyboard_program, all_there(have, {Have::dos, Have::writable_disk}),
       "a DOS prompt, and a disk that takes what is typed",
       "ask for the time, look before it writes, restore at each start"},
      {Way::basic_listing, have.contains(Have::basic), "a BASIC",
       "restore at each start; it is ten times as long to type"},
  };
  std::stable_partition(all.begin(), all.end(), [](const Opening& one) { return one.open; });
  return all;
}

std::string programmer_words(const std::set<Have>& have) {
  if (!have.contains(Have::chip_out)) return {};
  return "The chip in a programmer: for a potted part alone, which takes its cell along. A bare "
         "one "
         "forgets everything on the way back to its socket.";
}

}  // namespace rtcmend
