#include "ticks.h"

#include <avr/interrupt.h>
#include <avr/sleep.h>
#include <util/atomic.h>

static volatile uint32_t count;

ISR(TIMER1_COMPA_vect) {
  ++count;
}

void ticks_begin(void) {
  TCCR1A = 0;
  TCCR1B = _BV(WGM12) | _BV(CS11) | _BV(CS10); /* counts 16 MHz / 64 up to OCR1A */
  OCR1A = 249;
  TIMSK1 = _BV(OCIE1A);
  set_sleep_mode(SLEEP_MODE_IDLE);
}

uint32_t ticks_now(void) {
  uint32_t now;
  ATOMIC_BLOCK(ATOMIC_RESTORESTATE) now = count;
  return now;
}

void ticks_sleep(void) {
  sleep_mode();
}

void ticks_wait(uint16_t milliseconds) {
  const uint32_t start = ticks_now();
  while (ticks_now() - start <= milliseconds) ticks_sleep();
}
