#!/bin/sh
# Builds the player.
#
#   sh build.sh pc FOLDER      FOLDER/player, for this computer
#   sh build.sh avr FOLDER     FOLDER/board.elf and FOLDER/board.hex, for an ATmega328P at 16 MHz
#
# CC, AVR_CC and CFLAGS are taken from the environment; a board's settings are flags, such as CFLAGS=-DBOARD_STAGGER_MS=800.
set -eu
cd "$(dirname "$0")"
strict='-std=c99 -Wall -Wextra -Wpedantic -Wconversion -Wshadow'

# The flags are words of their own, so they stand without quotes.
case ${1-} in
  pc) mkdir -p "$2" && ${CC:-cc} $strict -O2 ${CFLAGS-} -DPLAYER_OUTPUTS=4096 -DPLAYER_LINE=1024 -o "$2/player" main_pc.c player.c ;;
  avr)
    mkdir -p "$2"
    ${AVR_CC:-avr-gcc} $strict -Os -mmcu=atmega328p -DF_CPU=16000000UL -DPLAYER_OUTPUTS=6 ${CFLAGS-} -o "$2/board.elf" main_avr.c player.c
    avr-objcopy -O ihex -R .eeprom "$2/board.elf" "$2/board.hex" ;;
  *) echo "build.sh: pc or avr, and a folder" >&2; exit 2 ;;
esac
