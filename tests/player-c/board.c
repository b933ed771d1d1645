/* Runs the firmware of examples/player-c on an emulated ATmega328P, at the other end of its serial line, and prints what its pins do.
 *
 *   board FIRMWARE LIST FROM SECONDS [--clock AT TO] [--noise N] [--swap AT LIST]
 *
 * FROM is what the computer's clock shows when the power comes on; before 2020 it does not know the time. At second AT it is put to TO.
 * With --noise, one bit of every Nth byte to the board is flipped. With --swap, from second AT on another list lies where the first one lay.
 * It prints, in order of time,
 *
 *   pin MILLISECONDS PORT+BIT LEVEL      by the computer's clock
 *   jump                                 the computer's clock has been put to TO
 *   log LINE                             what the board logs
 *   refused NUMBER                       the list, and why
 *   asked TIMES                          how often a block was asked for again
 *   ram STATIC STACK                     bytes, the stack at its deepest */
#include <simavr/avr_ioport.h>
#include <simavr/avr_uart.h>
#include <simavr/sim_avr.h>
#include <simavr/sim_elf.h>
#include <stdbool.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { HERTZ = 16000000, BLOCK = 32, STACK_POINTER = 0x5D };

static struct rig {
    avr_t *avr;
    avr_irq_t *to_board;
    uint8_t *list;
    size_t length, at, block_at;
    int64_t jump_at, jump_to, swap_at;      /* seconds; -1: never */
    const char *swap_path;
    int64_t clock_ms;           /* the computer's clock less the time since power-up */
    uint64_t noise, sent, asked_again;
    char line[256];
    size_t line_length;
} rig;

static int64_t now_ms(void)
{
    return rig.clock_ms + (int64_t)(rig.avr->cycle / (HERTZ / 1000));
}

static void put_byte(uint8_t byte)
{
    bool is_hit = rig.noise > 0 && ++rig.sent % rig.noise == 0;
    avr_raise_irq(rig.to_board, is_hit ? byte ^ 1u << rig.sent / rig.noise % 8 : byte);
}

/* CRC-16 with the polynomial A001, bit by bit. */
static uint16_t checksum(uint16_t crc, uint8_t byte)
{
    int i;
    crc ^= byte;
    for (i = 0; i < 8; i++) crc = (uint16_t)(crc & 1 ? crc >> 1 ^ 0xA001 : crc >> 1);
    return crc;
}

static void answer(const uint8_t *bytes, uint8_t length)
{
    uint16_t crc = checksum(0xFFFF, length);
    uint8_t i;
    put_byte(length);
    for (i = 0; i < length; i++) {
        put_byte(bytes[i]);
        crc = checksum(crc, bytes[i]);
    }
    put_byte((uint8_t)crc);
    put_byte((uint8_t)(crc >> 8));
}

static void answer_block(void)
{
    size_t left = rig.length - rig.block_at, length = left < BLOCK ? left : BLOCK;
    answer(rig.list + rig.block_at, (uint8_t)length);
    rig.at = rig.block_at + length;
}

static void answer_time(void)
{
    int64_t now = now_ms();
    uint32_t second = now < 1577836800000 ? 0 : (uint32_t)(now / 1000);
    uint16_t ms = (uint16_t)(now % 1000);
    uint8_t bytes[6] = {(uint8_t)second, (uint8_t)(second >> 8), (uint8_t)(second >> 16), (uint8_t)(second >> 24), (uint8_t)ms, (uint8_t)(ms >> 8)};
    answer(bytes, sizeof bytes);
}

static void end_line(void)
{
    rig.line[rig.line_length] = '\0';
    if (rig.line[0] == 'L') printf("log %s\n", rig.line + 1);
    else printf("refused %s\n", rig.line + 1);
    rig.line_length = 0;
}

static void take_byte(struct avr_irq_t *irq, uint32_t value, void *unused)
{
    char letter = (char)value;
    (void)irq, (void)unused;
    if (rig.line_length > 0 && letter == '\n') end_line();
    else if (rig.line_length > 0 || letter == 'L' || letter == 'F') {
        if (rig.line_length + 1 < sizeof rig.line) rig.line[rig.line_length++] = letter;
    } else switch (letter) {
        case 'R': rig.at = rig.block_at = 0; answer(0, 0); break;
        case 'N': rig.block_at = rig.at; answer_block(); break;
        case 'A': rig.asked_again++; answer_block(); break;
        case 'T': answer_time(); break;
        default: printf("unknown %d\n", letter); break;
    }
}

static void take_pin(struct avr_irq_t *irq, uint32_t value, void *name)
{
    (void)irq;
    printf("pin %lld %s %u\n", (long long)now_ms(), (const char *)name, value);
}

/* Time that is slept goes by at once. */
static void sleep_not(avr_t *avr, avr_cycle_count_t cycles)
{
    (void)avr, (void)cycles;
}

static void read_list(const char *path)
{
    FILE *file = fopen(path, "rb");
    enum { MOST = 1 << 24 };
    free(rig.list);
    if (!file || !(rig.list = malloc(MOST))) exit(2);
    rig.length = fread(rig.list, 1, MOST, file);
    fclose(file);
}

static void connect(void)
{
    static const char names[2][6][3] = {{"B0", "B1", "B2", "B3", "B4", "B5"}, {"C0", "C1", "C2", "C3", "C4", "C5"}};
    uint32_t flags = 0;
    int port, bit;
    avr_ioctl(rig.avr, AVR_IOCTL_UART_SET_FLAGS('0'), &flags);
    rig.to_board = avr_io_getirq(rig.avr, AVR_IOCTL_UART_GETIRQ('0'), UART_IRQ_INPUT);
    avr_irq_register_notify(avr_io_getirq(rig.avr, AVR_IOCTL_UART_GETIRQ('0'), UART_IRQ_OUTPUT), take_byte, 0);
    for (port = 0; port < 2; port++)
        for (bit = 0; bit < 6; bit++)
            avr_irq_register_notify(avr_io_getirq(rig.avr, AVR_IOCTL_IOPORT_GETIRQ("BC"[port]), bit), take_pin, (void *)names[port][bit]);
}

static void do_what_is_due(void)
{
    if (rig.jump_at >= 0 && now_ms() >= rig.jump_at * 1000) {
        rig.clock_ms += (rig.jump_to - rig.jump_at) * 1000;
        rig.jump_at = -1;
        printf("jump\n");
    }
    if (rig.swap_at >= 0 && now_ms() >= rig.swap_at * 1000) {
        read_list(rig.swap_path);
        rig.swap_at = -1;
    }
}

/* Returns how deep the stack was; -1 where the firmware stops. */
static int run(uint64_t seconds)
{
    uint16_t deepest = rig.avr->ramend;
    while (rig.avr->cycle < seconds * HERTZ) {
        int state = avr_run(rig.avr);
        uint16_t stack = (uint16_t)(rig.avr->data[STACK_POINTER] | rig.avr->data[STACK_POINTER + 1] << 8);
        if (state == cpu_Done || state == cpu_Crashed) return -1;
        if (stack >= 0x100 && stack < deepest) deepest = stack;
        do_what_is_due();
    }
    return rig.avr->ramend - deepest;
}

static bool take_options(int count, char **words)
{
    int i;
    rig.jump_at = rig.swap_at = -1;
    for (i = 5; i < count; i++) {
        if (strcmp(words[i], "--noise") == 0 && i + 1 < count) rig.noise = strtoull(words[++i], 0, 10);
        else if (strcmp(words[i], "--clock") == 0 && i + 2 < count) {
            rig.jump_at = strtoll(words[++i], 0, 10);
            rig.jump_to = strtoll(words[++i], 0, 10);
        } else if (strcmp(words[i], "--swap") == 0 && i + 2 < count) {
            rig.swap_at = strtoll(words[++i], 0, 10);
            rig.swap_path = words[++i];
        } else return false;
    }
    return true;
}

static bool start(elf_firmware_t *firmware)
{
    rig.avr = avr_make_mcu_by_name("atmega328p");
    if (!rig.avr || avr_init(rig.avr) != 0) return false;
    firmware->frequency = HERTZ;
    avr_load_firmware(rig.avr, firmware);
    rig.avr->sleep = sleep_not;
    connect();
    return true;
}

int main(int count, char **words)
{
    elf_firmware_t firmware = {0};
    int stack;
    if (count < 5 || !take_options(count, words) || elf_read_firmware(words[1], &firmware) != 0) return 2;
    read_list(words[2]);
    rig.clock_ms = strtoll(words[3], 0, 10) * 1000;
    if (!start(&firmware)) return 2;
    stack = run(strtoull(words[4], 0, 10));
    if (stack < 0) return 1;
    printf("asked %llu\nram %u %d\n", (unsigned long long)rig.asked_again, firmware.datasize + firmware.bsssize, stack);
    avr_terminate(rig.avr);
    free(rig.list);
    return 0;
}
