// A reader of one form, FUZZ_FORM: what it reads, its writer writes, and it reads the same again.
#include "forms/form.h"

#include "target.h"

namespace rtcmend::fuzz {

void attempt(std::string_view input) {
  static const Form form = form_named(FUZZ_FORM);
  const Dump dump = read_dump(input, "fuzz", form);
  const bool gaps = !dump.image.all_known();
  if (gaps && (form == Form::raw || form == Form::c_array)) return;
  // A record form says nothing of unknown bytes behind its last record, so its size may shrink.
  if (gaps && (form == Form::intel_hex || form == Form::s_record)) return;
  const WriteOptions options{.fill = {}, .layout = dump.layout, .note = dump.note};
  const Dump again = read_dump(write_dump(dump.image, form, options), "again", form);
  must(again.image == dump.image, "what is written reads back the same");
  must(again.note == dump.note && again.layout == dump.layout, "the note comes along");
}

}  // namespace rtcmend::fuzz
