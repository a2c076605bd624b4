#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <random>
#include <string>
#include <vector>

#include "forms/form.h"
#include "support/run_program.h"
#include "support/temporary_folder.h"

// The forms against the programs that people use beside this one: GNU objcopy, srec_cat, xxd,
// hexdump, od and Python. Each writes what we read, or reads what we write.

using namespace rtcmend;

namespace {

std::string random_raw(std::size_t size, unsigned seed) {
  std::mt19937 random(seed);
  std::string bytes;
  for (std::size_t i = 0; i < size; ++i) bytes += static_cast<char>(random() & 0xFF);
  return bytes;
}

/// Random images, others of printable characters alone, whose ASCII columns look like hex or are
/// full of marks, and one of zeros, whose rows some programs leave out.
std::vector<std::string> raws() {
  std::vector<std::string> all;
  for (const std::size_t size : {64, 128}) {
    for (unsigned seed = 1; seed <= 2; ++seed) {
      all.push_back(random_raw(size, seed));
      std::string printable = all.back();
      for (char& c : printable) c = static_cast<char>(' ' + static_cast<unsigned char>(c) % 95);
      all.push_back(printable);
      std::string digits = all.back();
      for (char& c : digits) c = " 0123456789abcdef"[static_cast<unsigned char>(c) % 17];
      all.push_back(digits);
    }
    all.emplace_back(size, '\0');
    all.push_back(random_raw(32, 99) + std::string(size - 32, '\xFF'));
  }
  return all;
}

void write_file(const std::filesystem::path& path, const std::string& content) {
  std::ofstream(path, std::ios::binary) << content;
}

std::string read_file(const std::filesystem::path& path) {
  std::ifstream file(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(file), {}};
}

/// Runs a program on files of the folder and gives its standard output.
std::string run(const TemporaryFolder& folder, std::vector<std::string> words,
                const std::string& input = {}) {
  test::Start start;
  start.program = "/usr/bin/env";
  start.arguments = std::move(words);
  start.folder = folder.path().string();
  start.input = input;
  const test::Ran ran = test::run_program(start);
  INFO(ran.err);
  REQUIRE(ran.code == 0);
  return ran.out;
}

Image image_of(const std::string& raw) {
  return read_dump(raw, "raw", Form::raw).image;
}

}  // namespace

TEST_CASE("objcopy reads the records that are written, and what it writes is read") {
  const TemporaryFolder folder;
  const std::pair<Form, std::string> forms[] = {{Form::intel_hex, "ihex"},
                                                {Form::s_record, "srec"}};
  for (const std::string& raw : raws()) {
    write_file(folder / "raw", raw);
    for (const auto& [form, target] : forms) {
      CAPTURE(target);
      write_file(folder / "ours", write_dump(image_of(raw), form));
      run(folder, {"objcopy", "-I", target, "-O", "binary", "ours", "back"});
      CHECK(read_file(folder / "back") == raw);
      run(folder, {"objcopy", "-I", "binary", "-O", target, "raw", "theirs"});
      const Dump dump = read_dump(read_file(folder / "theirs"), "theirs");
      CHECK(dump.form == form);
      CHECK(dump.image == image_of(raw));
    }
  }
}

TEST_CASE("srec_cat reads the records that are written, and what it writes is read", "[long]") {
  const TemporaryFolder folder;
  const std::pair<Form, std::string> forms[] = {{Form::intel_hex, "-intel"},
                                                {Form::s_record, "-motorola"}};
  for (const std::string& raw : raws()) {
    write_file(folder / "raw", raw);
    for (const auto& [form, format] : forms) {
      CAPTURE(format);
      write_file(folder / "ours", write_dump(image_of(raw), form));
      run(folder, {"srec_cat", "ours", format, "-o", "back", "-binary"});
      CHECK(read_file(folder / "back") == raw);
      run(folder, {"srec_cat", "raw", "-binary", "-o", "theirs", format});
      const Dump dump = read_dump(read_file(folder / "theirs"), "theirs");
      CHECK(dump.form == form);
      CHECK(dump.image == image_of(raw));
    }
  }
}

TEST_CASE("what srec_cat writes as C array and as hex dump is read") {
  const TemporaryFolder folder;
  for (const std::string& raw : raws()) {
    write_file(folder / "raw", raw);
    const std::string array = run(folder, {"srec_cat", "raw", "-binary", "-o", "-", "-c-array"});
    CHECK(read_dump(array, "theirs").image == image_of(raw));
    const std::string dump = run(folder, {"srec_cat", "raw", "-binary", "-o", "-", "-hex-dump"});
    CHECK(read_dump(dump, "theirs").image == image_of(raw));
  }
}

TEST_CASE("srec_cat finds the same bytes unknown that are left out of the records") {
  const TemporaryFolder folder;
  Image image = image_of(random_raw(64, 5));
  for (Address at = 0; at < Image::ram_start; ++at) image.forget(at);
  image.forget(0x19);
  write_file(folder / "ours", write_dump(image, Form::intel_hex));
  run(folder, {"srec_cat", "ours", "-intel", "-o", "theirs", "-motorola"});
  CHECK(read_dump(read_file(folder / "theirs"), "theirs").image == image);
}

TEST_CASE("what the dump programs print is read, whatever the bytes", "[long]") {
  const TemporaryFolder folder;
  const std::vector<std::vector<std::string>> programs{
      {"xxd", "raw"},
      {"xxd", "-u", "-g1", "raw"},
      {"xxd", "-g4", "raw"},
      {"xxd", "-c8", "raw"},
      {"xxd", "-a", "raw"},
      {"xxd", "-p", "raw"},
      {"xxd", "-i", "raw"},
      {"hexdump", "-C", "raw"},
      {"hexdump", "-v", "-C", "raw"},
      {"hexdump", "raw"},
      {"od", "-An", "-v", "-tx1", "raw"},
      {"od", "-tx1", "raw"},
      {"od", "-tx1z", "raw"},
      {"od", "-Ax", "-tx1z", "raw"},
      {"od", "-Ad", "-tx1", "raw"},
      {"od", "-x", "raw"},
      {"od", "-Ax", "-tx4", "raw"},
  };
  for (const std::string& raw : raws()) {
    write_file(folder / "raw", raw);
    for (const auto& program : programs) {
      const std::string text = run(folder, program);
      CAPTURE(text);
      CHECK(read_dump(text, "theirs").image == image_of(raw));
    }
  }
}

TEST_CASE("xxd -r turns the hex that is written back into the bytes") {
  const TemporaryFolder folder;
  for (const std::string& raw : raws()) {
    write_file(folder / "ours", write_dump(image_of(raw), Form::hex));
    CHECK(run(folder, {"xxd", "-r", "ours"}) == raw);
  }
}

TEST_CASE("Python reads the JSON that is written, and computes the same row codes", "[long]") {
  const TemporaryFolder folder;
  write_file(folder / "check.py", R"(
import json, sys
raw = open('raw', 'rb').read()
dump = json.load(open('ours.json'))
assert bytes.fromhex(''.join(dump['bytes'])) == raw and dump['size'] == len(raw)
lines = open('ours.rows').read().splitlines()
assert len(lines) * 16 == len(raw)
for number, line in enumerate(lines):
    body, code = line.split(' =')
    address, row = body.split(': ')
    assert int(address, 16) == number * 16
    crc = 0
    for byte in bytes.fromhex(address + row):
        crc ^= byte
        for _ in range(8):
            crc = crc << 1 ^ (0x107 if crc & 0x80 else 0)
    assert crc == int(code, 16), line
    assert bytes.fromhex(row) == raw[number * 16:number * 16 + 16]
print('agreed')
)");
  const std::vector<std::string> all = raws();
  for (const std::string& raw : {all[0], all[1], all[8], all[9]}) {
    write_file(folder / "raw", raw);
    write_file(folder / "ours.json", write_dump(image_of(raw), Form::json));
    write_file(folder / "ours.rows", write_dump(image_of(raw), Form::rows));
    CHECK(run(folder, {"python3", "check.py"}) == "agreed\n");
  }
}
