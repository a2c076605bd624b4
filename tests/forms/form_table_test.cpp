#include "forms/form_table.h"

#include <catch2/catch.hpp>
#include <set>

using namespace rtcmend;

TEST_CASE("every form stands in the table once, with all that is said of it") {
  std::set<std::string_view> names;
  std::set<int> asked;
  for (const FormEntry& entry : form_table()) {
    CAPTURE(entry.name);
    CHECK(names.insert(entry.name).second);
    CHECK(asked.insert(entry.asked).second);
    CHECK_FALSE(entry.title.empty());
    CHECK_FALSE(entry.summary.empty());
    CHECK(entry.saved_as.starts_with('.'));
    CHECK(&entry_of(entry.form) == &entry);
  }
  CHECK(names.size() == 8);
}

TEST_CASE("lists of forms and endings are words for a help text") {
  CHECK(list_of_forms() == "raw, hex, rows, code-text, intel-hex, s-record, c-array or json");
  CHECK(list_of_forms(", ") == "raw, hex, rows, code-text, intel-hex, s-record, c-array, json");
  CHECK(list_of_endings() == ".bin .txt .hex .srec .h .json");
}

TEST_CASE("a file's name tells the form by its ending") {
  CHECK(form_of_name("DUMP.BIN") == Form::raw);
  CHECK(form_of_name("a/b.txt") == Form::rows);
  CHECK(form_of_name("x.ihx") == Form::intel_hex);
  CHECK(form_of_name("x.s19") == Form::s_record);
  CHECK(form_of_name("x.c") == Form::c_array);
  CHECK(form_of_name("x") == std::nullopt);
}
