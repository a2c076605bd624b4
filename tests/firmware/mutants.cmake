# Firmwares with one thing wrong each: mutant(NAME FILE TEXT INSTEAD). The text must be in the file
# just once. @ stands for a semicolon.

mutant(bus_not_released bus.h
"  bus_drive(charge)@
  bus_phase()@
  bus_release()@"
"  bus_drive(charge)@
  bus_phase()@")
mutant(cs_ends_early bus.h
"  PORTB |= _BV(PIN_RD)@
  bus_phase()@
  PORTC |= _BV(PIN_CS)@
  bus_phase()@"
"  PORTC |= _BV(PIN_CS)@
  bus_phase()@
  PORTB |= _BV(PIN_RD)@
  bus_phase()@")
mutant(cs_begins_late bus.h
"  PORTC &= ~_BV(PIN_CS)@
  bus_phase()@
  PORTB &= ~_BV(PIN_WR)@"
"  PORTB &= ~_BV(PIN_WR)@
  PORTC &= ~_BV(PIN_CS)@
  bus_phase()@")
mutant(sampled_early bus.h
"  PORTB &= ~_BV(PIN_RD)@
  bus_phase()@
  const"
"  PORTB &= ~_BV(PIN_RD)@
  const")
mutant(address_strobe_short bus.h
"  PORTB |= _BV(PIN_AS)@
  bus_phase()@"
"  PORTB |= _BV(PIN_AS)@")
mutant(address_behind_its_strobe bus.h
"  bus_drive(address)@
  bus_phase()@
  PORTB |= _BV(PIN_AS)@
  bus_phase()@
  PORTB &= ~_BV(PIN_AS)@"
"  PORTB |= _BV(PIN_AS)@
  bus_phase()@
  PORTB &= ~_BV(PIN_AS)@
  bus_drive(address)@")
mutant(address_with_its_strobe bus.h
"  PORTB &= ~_BV(PIN_AS)@
  bus_phase()@
}"
"  PORTB = (PORTB & ~(_BV(PIN_AS) | BUS_ON_B)) | (~address & BUS_ON_B)@
  bus_phase()@
}")
mutant(address_not_held bus.h
"  PORTB &= ~_BV(PIN_AS)@
  bus_phase()@
}"
"  PORTB &= ~(_BV(PIN_AS) | BUS_ON_B)@
  bus_phase()@
}")
mutant(cs_ends_in_a_write bus.h
"  PORTB |= _BV(PIN_WR)@
  bus_phase()@
  PORTC |= _BV(PIN_CS)@
  bus_phase()@
  bus_release()@"
"  PORTC |= _BV(PIN_CS)@
  bus_phase()@
  PORTB |= _BV(PIN_WR)@
  bus_phase()@
  bus_release()@")
mutant(emptied_by_its_sense supply.c
"static void gate_off(void) {
  PORTC |= _BV(PIN_GATE)@"
"static void gate_off(void) {
  PORTC |= _BV(PIN_GATE)@
  DDRC |= _BV(ADC_SENSE)@")
mutant(fed_by_its_sense supply.c
"  DDRB |= _BV(PIN_LED)@
}"
"  DDRB |= _BV(PIN_LED)@
  PORTC |= _BV(ADC_SENSE)@
}")
mutant(write_strobe_short bus.h
"  PORTB &= ~_BV(PIN_WR)@
  bus_phase()@"
"  PORTB &= ~_BV(PIN_WR)@")
mutant(data_let_go_early bus.h
"  PORTB &= ~_BV(PIN_WR)@
  bus_phase()@"
"  PORTB &= ~_BV(PIN_WR)@
  bus_phase()@
  bus_release()@")
mutant(write_low_at_power_up bus.h
"  PORTB |= _BV(PIN_RD) | _BV(PIN_WR)@
  DDRC |= _BV(PIN_CS)@
  DDRB |= _BV(PIN_RD) | _BV(PIN_WR) | _BV(PIN_AS)@"
"  DDRC |= _BV(PIN_CS)@
  DDRB |= _BV(PIN_RD) | _BV(PIN_WR) | _BV(PIN_AS)@
  PORTB |= _BV(PIN_RD) | _BV(PIN_WR)@")
mutant(driven_after_off bus.h
"  DDRC &= ~_BV(PIN_CS)@
  DDRB &= ~(_BV(PIN_RD) | _BV(PIN_WR) | _BV(PIN_AS))@
  PORTC &= ~_BV(PIN_CS)@
  PORTB &= ~(_BV(PIN_RD) | _BV(PIN_WR) | _BV(PIN_AS))@"
"  DDRC &= ~_BV(PIN_CS)@")
mutant(pulled_up_after_off bus.h
"  PORTB &= ~(_BV(PIN_RD) | _BV(PIN_WR) | _BV(PIN_AS))@"
"  PORTB &= ~_BV(PIN_AS)@")
mutant(low_on_the_way_off bus.h
"  DDRC &= ~_BV(PIN_CS)@
  DDRB &= ~(_BV(PIN_RD) | _BV(PIN_WR) | _BV(PIN_AS))@
  PORTC &= ~_BV(PIN_CS)@
  PORTB &= ~(_BV(PIN_RD) | _BV(PIN_WR) | _BV(PIN_AS))@"
"  PORTC &= ~_BV(PIN_CS)@
  PORTB &= ~(_BV(PIN_RD) | _BV(PIN_WR) | _BV(PIN_AS))@
  DDRC &= ~_BV(PIN_CS)@
  DDRB &= ~(_BV(PIN_RD) | _BV(PIN_WR) | _BV(PIN_AS))@")
mutant(no_recovery supply.c "#define START_UP 250" "#define START_UP 50")
mutant(gate_before_lines supply.c
"  if (state == BOARD_STATE_ON) bus_end()@
  gate_off()@"
"  gate_off()@
  if (state == BOARD_STATE_ON) bus_end()@")
mutant(lines_never_released supply.c "  if (state == BOARD_STATE_ON) bus_end()@" "")
mutant(short_ignored supply.c
"  if (!has_risen()) {
    gate_off()@
    return BOARD_SUPPLY_SHORT@
  }"
"  has_risen()@")
mutant(lines_before_supply supply.c
"  gate_on()@
  if (!has_risen()) {"
"  bus_begin()@
  gate_on()@
  if (!has_risen()) {")
mutant(low_rail_ignored supply.c "#define RAIL_LEAST 4500" "#define RAIL_LEAST 3000")
mutant(feeding_ignored supply.c "  if (!has_fallen()) return BOARD_FED_ELSEWHERE@" "  has_fallen()@")
mutant(never_off_alone supply.c
"  if (state == BOARD_STATE_ON && ticks_now() - wanted_at >= UNWANTED) switch_off()@" "")
mutant(rest_too_short supply.c "seconds * 1000UL" "seconds * 800UL")
mutant(no_charge_test chip.c "  *undriven = follows@" "  *undriven = 0@")
mutant(second_value chip.c
"  const uint8_t value = cycle(at, 0x00)@
  uint8_t follows = ~value & cycle(at, 0xFF)@"
"  cycle(at, 0x00)@
  const uint8_t value = cycle(at, 0x00)@
  uint8_t follows = ~value & cycle(at, 0xFF)@")
mutant(no_wire_test wires.c "  const uint8_t result = test(found)@"
"  const uint8_t result = BOARD_DONE@
  (void)test@
  (void)found@")
mutant(wires_tried_at_any_address wires.c "  bus_latch(0x0D)@" "  bus_latch(0x20)@")
mutant(update_ignored clock.c
"  while (chip_peek(A) & UIP)
    if"
"  while (0)
    if")
mutant(time_without_set clock.c "put(B, bytes[B] | SET, 0xFF, fault)" "put(B, bytes[B], 0xFF, fault)")
mutant(setting_not_checked clock.c "if (((found ^ value) & mask) == 0)" "if (mask)")
mutant(standing_clock_ignored clock.c "return BOARD_NO_EDGE@" "return BOARD_DONE@")
mutant(read_only_written main.c "#define RAM_START 0x0E" "#define RAM_START 0x0D")
mutant(write_not_checked main.c "    if (fault[2] != fault[1]) return not_taken(fault)@" "")
mutant(done_again main.c "number == answered_number && " "0 && ")
mutant(crc_ignored line.c
"  return crc_over(BOARD_REQUEST, request->bytes, request->count) == request->crc@"
"  return 1@")
