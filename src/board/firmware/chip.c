#include "chip.h"

#include <util/atomic.h>

#include "bus.h"

#define CONFIRMATIONS 3

static uint8_t cycle(uint8_t at, uint8_t charge) {
  uint8_t value = 0;
  ATOMIC_BLOCK(ATOMIC_RESTORESTATE) {
    bus_latch(at);
    value = bus_read(charge);
  }
  return value;
}

uint8_t chip_peek(uint8_t at) {
  return cycle(at, 0xFF);
}

void chip_poke(uint8_t at, uint8_t value) {
  ATOMIC_BLOCK(ATOMIC_RESTORESTATE) {
    bus_latch(at);
    bus_write(value);
  }
}

uint8_t chip_read(uint8_t at, uint8_t *undriven) {
  const uint8_t value = cycle(at, 0x00);
  uint8_t follows = ~value & cycle(at, 0xFF);
  /* What ticks may look so once; what nobody drives does so each time. */
  for (uint8_t i = 0; follows && i < CONFIRMATIONS; ++i) {
    const uint8_t low = cycle(at, 0x00);
    follows &= ~low & cycle(at, 0xFF);
  }
  *undriven = follows;
  return value;
}
