/* Reads and writes a clock chip of the 146818 family out of the machine, for an ATmega328P at 16 MHz
   and 5 V. Waits for a request, does it, answers. */
#include <avr/interrupt.h>
#include <avr/wdt.h>
#include <string.h>

#include "chip.h"
#include "clock.h"
#include "line.h"
#include "protocol.h"
#include "serial.h"
#include "supply.h"
#include "ticks.h"
#include "wires.h"

#define RAM_START 0x0E
#define CHIP_END 0x80
#define VRT_BYTE 0x0D

/* The answer under way: number, status, data. Kept, so that a request that comes once more, its
   answer being lost, is not done once more: a read of 0Ch clears it. */
static uint8_t answer[2 + BOARD_DATA_MOST];
static uint8_t answer_data;
static uint8_t answered_number;
static uint16_t answered_crc;

/* A boot loader may leave the watchdog running. */
void watchdog_off(void) __attribute__((naked, used, section(".init3")));
void watchdog_off(void) {
  MCUSR = 0;
  wdt_disable();
}

static void add(uint8_t byte) {
  answer[2 + answer_data++] = byte;
}

static void add_word(uint16_t word) {
  add(word >> 8);
  add(word & 0xFF);
}

static void add_hello(void) {
  add(BOARD_VERSION);
  add(supply_state());
  add(supply_status());
  add_word(supply_rail_millivolts());
  add_word(supply_chip_millivolts());
  add_word(supply_rest_left());
}

/* What a status of the supply is told with. */
static uint8_t with_details(uint8_t status) {
  if (status == BOARD_LOW_RAIL) add_word(supply_rail_millivolts());
  if (status == BOARD_SUPPLY_SHORT || status == BOARD_FED_ELSEWHERE)
    add_word(supply_chip_millivolts());
  if (status == BOARD_BUSY) add_word(supply_rest_left());
  return status;
}

/* A byte, or what says that it cannot be believed. */
static uint8_t read_byte(uint8_t at, uint8_t *value) {
  uint8_t undriven;
  *value = chip_read(at, &undriven);
  if (!undriven) return BOARD_DONE;
  answer_data = 0;
  add(at);
  if (undriven == 0xFF) return BOARD_NO_CHIP;
  add(undriven);
  return BOARD_FLOATING;
}

static uint8_t read(uint8_t at, uint8_t count) {
  if (count == 0 || count > BOARD_DATA_MOST || at >= CHIP_END || count > CHIP_END - at)
    return BOARD_BAD_RANGE;
  for (; count > 0; --count, ++at) {
    uint8_t value;
    const uint8_t status = read_byte(at, &value);
    if (status != BOARD_DONE) return status;
    add(value);
  }
  return BOARD_DONE;
}

static uint8_t not_taken(const uint8_t fault[3]) {
  for (uint8_t i = 0; i < 3; ++i) add(fault[i]);
  return BOARD_NOT_TAKEN;
}

static uint8_t write(uint8_t at, const uint8_t *bytes, uint8_t count) {
  if (count == 0 || at < RAM_START || at >= CHIP_END || count > CHIP_END - at)
    return BOARD_BAD_RANGE;
  for (; count > 0; --count, ++at, ++bytes) {
    uint8_t fault[3] = {at, *bytes, 0};
    chip_poke(at, *bytes);
    const uint8_t status = read_byte(at, &fault[2]);
    if (status != BOARD_DONE) return status;
    if (fault[2] != fault[1]) return not_taken(fault);
  }
  return BOARD_DONE;
}

static uint8_t read_clock(void) {
  uint8_t bytes[CLOCK_BYTES];
  uint8_t status = read_byte(VRT_BYTE, bytes);
  if (status != BOARD_DONE) return status;
  status = clock_read(bytes);
  for (uint8_t i = 0; status == BOARD_DONE && i < CLOCK_BYTES; ++i) add(bytes[i]);
  return status;
}

static uint8_t set_clock(const uint8_t *bytes, uint8_t count) {
  uint8_t fault[3];
  uint8_t status = BOARD_BAD_RANGE;
  if (count == 2) status = clock_run(bytes, fault);
  if (count == CLOCK_SETTING) status = clock_set(bytes, fault);
  return status == BOARD_NOT_TAKEN ? not_taken(fault) : status;
}

static uint8_t edge(void) {
  const uint8_t status = clock_edge();
  if (status == BOARD_DONE) add(chip_peek(0));
  return status;
}

static uint8_t test_wires(void) {
  uint8_t found[3];
  const uint8_t status = wires_test(found);
  for (uint8_t i = 0; status != BOARD_DONE && i < 3; ++i) add(found[i]);
  return status;
}

static uint8_t is_about_chip(uint8_t command) {
  static const char commands[] = {BOARD_WIRES, BOARD_READ, BOARD_WRITE,
                                  BOARD_CLOCK, BOARD_SET,  BOARD_EDGE};
  return memchr(commands, command, sizeof commands) != 0;
}

/* What needs the chip under power. */
static uint8_t with_chip(uint8_t command, const uint8_t *data, uint8_t count) {
  if (!is_about_chip(command)) return BOARD_BAD_COMMAND;
  const uint8_t status = supply_check();
  if (status != BOARD_DONE) return status;
  switch (command) {
    case BOARD_WIRES:
      return test_wires();
    case BOARD_READ:
      return count == 2 ? read(data[0], data[1]) : BOARD_BAD_RANGE;
    case BOARD_WRITE:
      return count > 1 ? write(data[0], data + 1, count - 1) : BOARD_BAD_RANGE;
    case BOARD_CLOCK:
      return read_clock();
    case BOARD_SET:
      return set_clock(data, count);
    default:
      return edge();
  }
}

static uint8_t obey(uint8_t command, const uint8_t *data, uint8_t count) {
  switch (command) {
    case BOARD_HELLO:
      add_hello();
      return BOARD_DONE;
    case BOARD_ON:
      return supply_on();
    case BOARD_OFF:
      return supply_off();
    case BOARD_REST:
      return count == 2 ? supply_rest((uint16_t)(data[0] << 8) | data[1]) : BOARD_BAD_RANGE;
    default:
      return with_chip(command, data, count);
  }
}

static void send_answer(void) {
  line_send(BOARD_REPLY, answer, 2 + answer_data);
}

static void reject(void) {
  const uint8_t rejected[2] = {0, BOARD_BAD_FRAME};
  line_send(BOARD_REPLY, rejected, 2);
}

static void handle(const struct line *request) {
  const uint8_t number = request->bytes[0], command = request->bytes[1];
  supply_wanted();
  if (command != BOARD_HELLO && number == answered_number && request->crc == answered_crc) {
    send_answer();
    return;
  }
  answer_data = 0;
  answer[0] = number;
  answer[1] = with_details(obey(command, request->bytes + 2, request->count - 2));
  answered_number = number;
  answered_crc = request->crc;
  send_answer();
}

static void greet(void) {
  add_hello();
  line_send(BOARD_GREETING, answer + 2, answer_data);
}

int main(void) {
  static struct line request;
  supply_begin();
  serial_begin();
  ticks_begin();
  sei();
  greet();
  for (;;) {
    int16_t character;
    while ((character = serial_take()) >= 0) {
      const enum line_event event = line_take(&request, (char)character);
      if (event == LINE_REQUEST) handle(&request);
      if (event == LINE_BROKEN) reject();
    }
    supply_turn();
    ticks_sleep();
  }
}
