#pragma once

#include <initializer_list>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace rtcmend {

/// Something that a person can do, as data. The core says what, and to what; each face (command
/// line, page, printed sheet, old machine's screen) says how it is done there, or leaves it at the
/// words that stand beside it.
struct Act {
  enum class Kind {
    set_clock,     ///< give the image the time of the day
    set_field,     ///< subject: the field's id; value: what to set, empty = one of its legal values
    set_byte,      ///< subject: the address in hex; value: two hex digits
    seal,          ///< recompute the checks
    see_repairs,   ///< look at the small repairs that would explain failed checks
    audit_packed,  ///< judge a file of many images; value: bytes of each
    compose,       ///< build an image from what is fitted
    take_back,     ///< value: what happened to the whole dump, "shift=1", "nibbles" (make/undo.h)
    identify,      ///< see which layouts fit
    show,          ///< look at a dump
    capture,       ///< make what reads the chip out; value: the way, empty = one of them
    compare,       ///< hold what was read back against what was wanted
    compare_kept,  ///< the same, after a time without power; value: how long, "30m"
    measure_drift,  ///< see how well the clock keeps time
    solve,          ///< find the check of a machine that nobody documented
    plan,           ///< plan the work on the cell
    cautions,       ///< read what may hurt at the bench, before a hand goes in
    list,           ///< subject: "parts", "layouts", "fields" (value: the layout's id), "ways",
                    ///< "board"
    choose  ///< subject: a choice, "form"; value: what to choose, empty = one of the legal ones
  };
  Kind kind = Kind::choose;
  std::string subject, value;

  friend bool operator==(const Act&, const Act&) = default;
};

/// "set-clock" and so on, for programs.
std::string_view name(Act::Kind kind);

/// A sentence, and how to do what it says. Before an act the sentence has no full stop.
struct AdviceStep {
  std::string words;
  std::optional<Act> act;
};

/// What to do, a step after the other; often a single sentence, sometimes none.
class Advice {
 public:
  Advice() = default;
  /// Plain words, with nothing to do in the program.
  Advice(std::string words);
  Advice(const char* words) : Advice(std::string(words)) {}
  Advice(std::initializer_list<AdviceStep> steps) : steps_(steps) {}

  bool empty() const { return steps_.empty(); }
  const std::vector<AdviceStep>& steps() const { return steps_; }
  void add(AdviceStep step) { steps_.push_back(std::move(step)); }

 private:
  std::vector<AdviceStep> steps_;
};

/// The words alone, each a sentence: for a reader without a program at hand.
std::string in_plain_words(const Advice& advice);

}  // namespace rtcmend
