#include "clock.h"

#include "chip.h"
#include "protocol.h"
#include "ticks.h"

#define A 0x0A
#define B 0x0B
#define UIP 0x80
#define SET 0x80
#define DIVIDER 0x70
#define DIVIDER_HELD 0x60

/* An update takes 1984 us and is announced 244 us before (DS12885). */
#define UPDATE_MOST 20
#define EDGE_MOST 2000
#define ATTEMPTS 5

static uint8_t wait_for_no_update(void) {
  const uint32_t start = ticks_now();
  while (chip_peek(A) & UIP)
    if (ticks_now() - start > UPDATE_MOST) return BOARD_UPDATE_STUCK;
  return BOARD_DONE;
}

uint8_t clock_read(uint8_t bytes[CLOCK_BYTES]) {
  for (uint8_t attempt = 0; attempt < ATTEMPTS; ++attempt) {
    const uint8_t waited = wait_for_no_update();
    if (waited != BOARD_DONE) return waited;
    for (uint8_t at = 0; at < A; ++at) bytes[at] = chip_peek(at);
    /* 244 us were sure from the look at UIP on: enough, unless an interrupt came between. */
    if ((chip_peek(A) & UIP) || chip_peek(0) != bytes[0]) continue;
    for (uint8_t at = A; at < CLOCK_BYTES; ++at) bytes[at] = chip_peek(at);
    return BOARD_DONE;
  }
  return BOARD_UPDATE_STUCK;
}

/* Writes a byte and looks whether it is there, but for the bits that cannot be written. */
static uint8_t put(uint8_t at, uint8_t value, uint8_t mask, uint8_t fault[3]) {
  chip_poke(at, value);
  const uint8_t found = chip_peek(at);
  if (((found ^ value) & mask) == 0) return BOARD_DONE;
  fault[0] = at;
  fault[1] = value;
  fault[2] = found;
  return BOARD_NOT_TAKEN;
}

uint8_t clock_run(const uint8_t registers[2], uint8_t fault[3]) {
  const uint8_t a = put(A, registers[0], (uint8_t)~UIP, fault);
  return a != BOARD_DONE ? a : put(B, registers[1], 0xFF, fault);
}

uint8_t clock_set(const uint8_t bytes[CLOCK_SETTING], uint8_t fault[3]) {
  /* SET first: it ends an update that is under way, and none begins. The chain is held meanwhile,
     so that the moment of letting it go is the moment from which it counts. */
  uint8_t result = put(B, bytes[B] | SET, 0xFF, fault);
  if (result == BOARD_DONE)
    result = put(A, (bytes[A] & ~DIVIDER) | DIVIDER_HELD, (uint8_t)~UIP, fault);
  for (uint8_t at = 0; at < A && result == BOARD_DONE; ++at)
    result = put(at, bytes[at], at == 0 ? 0x7F : 0xFF, fault);
  return result == BOARD_DONE ? clock_run(bytes + A, fault) : result;
}

uint8_t clock_edge(void) {
  const uint32_t start = ticks_now();
  do {
    if (ticks_now() - start > EDGE_MOST) return BOARD_NO_EDGE;
    ticks_sleep(); /* it lasts two milliseconds: a look each millisecond finds it */
  } while (!(chip_peek(A) & UIP));
  return wait_for_no_update();
}
