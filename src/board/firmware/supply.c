#include "supply.h"

#include <avr/io.h>

#include "bus.h"
#include "protocol.h"
#include "ticks.h"

/* The chip stops answering near 4.25 V (from memory); less than this leaves no room. */
#define RAIL_LEAST 4500
/* Shares of the rail, in steps of the converter. */
#define UP 973  /* 95 % */
#define DOWN 20 /* 0.1 V of 5 V */
/* 10 uF through 10 ohm are up within 0.3 ms; a conversion takes 0.1 ms. */
#define RISE_CONVERSIONS 10
/* 10 uF and 4.7 kOhm: 0.1 V is reached after 0.2 s. */
#define FALL_MOST 1000
/* A chip answers 20 to 200 ms after its supply is good (DS12885, tRPU). */
#define START_UP 250
/* A program that is gone leaves no chip under power. */
#define UNWANTED 30000UL

static uint8_t state, status;
static uint32_t wanted_at, rest_since, rest_milliseconds;

static uint16_t convert(uint8_t mux) {
  ADMUX = _BV(REFS0) | mux; /* against the rail */
  ADCSRA = _BV(ADEN) | _BV(ADSC) | _BV(ADPS2) | _BV(ADPS1) | _BV(ADPS0);
  while (ADCSRA & _BV(ADSC)) continue;
  return ADC;
}

static uint16_t sense(void) {
  return convert(ADC_SENSE);
}

uint16_t supply_rail_millivolts(void) {
  convert(0x0E); /* the reference of 1.1 V needs a moment behind the multiplexer */
  ticks_wait(2);
  const uint16_t steps = convert(0x0E);
  return steps ? (uint16_t)(1100UL * 1024 / steps) : 0;
}

uint16_t supply_chip_millivolts(void) {
  const uint32_t rail = supply_rail_millivolts();
  return (uint16_t)(rail * sense() / 1024);
}

static void gate_off(void) {
  PORTC |= _BV(PIN_GATE);
  PORTB &= ~_BV(PIN_LED);
}

static void gate_on(void) {
  PORTC &= ~_BV(PIN_GATE);
  PORTB |= _BV(PIN_LED);
}

static uint8_t has_fallen(void) {
  const uint32_t start = ticks_now();
  while (sense() > DOWN)
    if (ticks_now() - start > FALL_MOST) return 0;
  return 1;
}

static uint8_t has_risen(void) {
  for (uint8_t i = 0; i < RISE_CONVERSIONS; ++i)
    if (sense() >= UP) return 1;
  return 0;
}

void supply_begin(void) {
  PORTC |= _BV(PIN_GATE); /* level before direction: not on for a moment */
  DDRC |= _BV(PIN_GATE);
  DDRB |= _BV(PIN_LED);
}

static uint8_t switch_off(void) {
  if (state == BOARD_STATE_ON) bus_end();
  gate_off();
  state = BOARD_STATE_OFF;
  return has_fallen() ? BOARD_DONE : BOARD_FED_ELSEWHERE;
}

static uint8_t switch_on(void) {
  if (supply_rail_millivolts() < RAIL_LEAST) return BOARD_LOW_RAIL;
  if (!has_fallen()) return BOARD_FED_ELSEWHERE;
  gate_on();
  if (!has_risen()) {
    gate_off();
    return BOARD_SUPPLY_SHORT;
  }
  bus_begin();
  state = BOARD_STATE_ON;
  ticks_wait(START_UP);
  return BOARD_DONE;
}

uint8_t supply_on(void) {
  if (state == BOARD_STATE_RESTING) return BOARD_BUSY;
  if (state == BOARD_STATE_ON) return supply_check();
  status = switch_on();
  supply_wanted();
  return status;
}

uint8_t supply_off(void) {
  return switch_off();
}

uint8_t supply_rest(uint16_t seconds) {
  const uint8_t checked = supply_check();
  if (checked != BOARD_DONE) return checked;
  const uint8_t result = switch_off();
  if (result != BOARD_DONE) return result;
  rest_since = ticks_now();
  rest_milliseconds = seconds * 1000UL;
  state = BOARD_STATE_RESTING;
  return BOARD_DONE;
}

uint8_t supply_check(void) {
  if (state == BOARD_STATE_RESTING) return BOARD_BUSY;
  if (state == BOARD_STATE_OFF) return BOARD_NO_POWER;
  if (sense() >= UP) return BOARD_DONE;
  switch_off();
  return BOARD_SUPPLY_SHORT;
}

void supply_turn(void) {
  const uint32_t now = ticks_now();
  if (state == BOARD_STATE_RESTING && now - rest_since >= rest_milliseconds) {
    state = BOARD_STATE_OFF;
    supply_on();
  }
  if (state == BOARD_STATE_ON && ticks_now() - wanted_at >= UNWANTED) switch_off();
}

void supply_wanted(void) {
  wanted_at = ticks_now();
}

uint8_t supply_state(void) {
  return state;
}

uint8_t supply_status(void) {
  return status;
}

uint16_t supply_rest_left(void) {
  if (state != BOARD_STATE_RESTING) return 0;
  const uint32_t gone = ticks_now() - rest_since;
  return gone >= rest_milliseconds ? 0 : (uint16_t)((rest_milliseconds - gone + 999) / 1000);
}
