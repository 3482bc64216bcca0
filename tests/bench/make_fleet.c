/* make_fleet.c - makes a fleet of invented sheets to measure with.
 *
 *   make_fleet RULES wide|tidy SHEETS FILE       one file of many sheets
 *   make_fleet RULES wide|tidy SHEETS FOLDER/    a file a sheet
 *   make_fleet RULES limits 0 FILE               step,note,low,aim,high, for other tools
 *
 * Every measured step of the grand book at every note that it applies to: readings about their aims,
 * 2 in 100 out of their range, 1 in 100 blank.  The same numbers in every run: nothing here is drawn by
 * the clock.  The values are made up from the book's own targets and mean nothing. */
#include "hammerline.h"

#include <inttypes.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

#define STEPS_MOST 64

typedef struct maker {
    const hl_book *book;
    int steps[STEPS_MOST];
    int n_steps;
    bool tidy, limits;
    uint64_t state;
} maker;

static uint64_t draw(maker *m, uint64_t below)
{
    uint64_t z = m->state += UINT64_C(0x9e3779b97f4a7c15);
    z = (z ^ (z >> 30)) * UINT64_C(0xbf58476d1ce4e5b9);
    z = (z ^ (z >> 27)) * UINT64_C(0x94d049bb133111eb);
    return (z ^ (z >> 31)) % below;
}

static bool applies(const hl_step *step, hl_compass compass, int note)
{
    if (note == 0 || step->scope == HL_ONCE)
        return (note == 0) == (step->scope == HL_ONCE);
    bool sharp = hl_pitch_is_sharp(hl_note_pitch(compass, note));
    return step->scope == HL_NATURALS ? !sharp : step->scope == HL_SHARPS ? sharp : true;
}

/* One resolution about the aim, or as far out as two times the width of the range. */
static hl_amount make_value(maker *m, const hl_step *step, const hl_target *target)
{
    hl_amount grain = step->resolution > 0 ? step->resolution : HL_ONE / 10;
    hl_amount aim = (target->aim + grain / 2) / grain * grain;
    if (draw(m, 100) >= 2)
        return aim + ((hl_amount)draw(m, 3) - 1) * (grain < 200000 ? grain : 0);
    hl_amount away = ((hl_amount)draw(m, 4) + 1) * grain;
    bool high = target->has_high && (!target->has_low || draw(m, 2) == 0);
    if (high)
        return (target->high + away) / grain * grain + grain;
    return target->has_low ? (target->low - away) / grain * grain - grain : aim;
}

static void put_value(FILE *out, hl_amount value)
{
    const char *sign = value < 0 ? "-" : "";
    hl_amount size = value < 0 ? -value : value, part = size % HL_ONE / 1000;
    fprintf(out, "%s%" PRId64, sign, size / HL_ONE);
    if (part > 0)
        fprintf(out,
                part % 100 == 0  ? ".%01d"
                : part % 10 == 0 ? ".%02d"
                                 : ".%03d",
                (int)(part % 100 == 0  ? part / 100
                      : part % 10 == 0 ? part / 10
                                       : part));
}

static void put_cell(maker *m, FILE *out, const char *sheet, int index, int note)
{
    const hl_step *step = hl_book_step(m->book, m->steps[index]);
    hl_compass compass = hl_book_compass(m->book);
    bool read = applies(step, compass, note) && draw(m, 100) >= 1;
    int pitch = note == 0 ? HL_PITCHES : hl_note_pitch(compass, note);
    if (m->tidy && !read)
        return;
    if (m->tidy)
        fprintf(out, "%s%s,%s,", sheet, note == 0 ? "" : hl_pitch_name(pitch), step->id);
    else
        putc(',', out);
    if (read)
        put_value(out, make_value(m, step, &step->targets[pitch]));
    if (m->tidy)
        putc('\n', out);
}

static void put_heads(const maker *m, FILE *out, bool many)
{
    fprintf(out, "# book: grand\n%snote", many ? "sheet," : "");
    for (int i = 0; !m->tidy && i < m->n_steps; i++)
        fprintf(out, ",%s", hl_book_step(m->book, m->steps[i])->id);
    fputs(m->tidy ? ",step,reading\n" : "\n", out);
}

static void put_sheet(maker *m, FILE *out, const char *sheet)
{
    hl_compass compass = hl_book_compass(m->book);
    for (int note = 0; note <= compass.keys; note++) {
        if (!m->tidy)
            fprintf(out, "%s%s", sheet, note == 0 ? "" : hl_pitch_name(hl_note_pitch(compass, note)));
        for (int i = 0; i < m->n_steps; i++)
            put_cell(m, out, sheet, i, note);
        if (!m->tidy)
            putc('\n', out);
    }
}

static void put_limits(const maker *m, FILE *out)
{
    hl_compass compass = hl_book_compass(m->book);
    for (int i = 0; i < m->n_steps; i++)
        for (int note = 0; note <= compass.keys; note++) {
            const hl_step *step = hl_book_step(m->book, m->steps[i]);
            const hl_target *target = &step->targets[note == 0 ? HL_PITCHES : hl_note_pitch(compass, note)];
            if (!applies(step, compass, note))
                continue;
            fprintf(out, "%s,%s,", step->id, note == 0 ? "" : hl_pitch_name(hl_note_pitch(compass, note)));
            put_value(out, target->has_low ? target->low : -HL_ONE * 1000000);
            putc(',', out);
            put_value(out, target->aim);
            putc(',', out);
            put_value(out, target->has_high ? target->high : HL_ONE * 1000000);
            putc('\n', out);
        }
}

static int fail(const char *what)
{
    fprintf(stderr, "make_fleet: %s\n", what);
    return 1;
}

static int put_files(maker *m, const char *folder, long n)
{
    for (long i = 1; i <= n; i++) {
        char path[4096];
        snprintf(path, sizeof path, "%spiano-%06ld.csv", folder, i);
        FILE *out = fopen(path, "w");
        if (!out)
            return fail("can't write into the folder");
        put_heads(m, out, false);
        put_sheet(m, out, "");
        if (fclose(out) != 0)
            return fail("can't write a file");
    }
    return 0;
}

static int put_file(maker *m, const char *path, long n)
{
    FILE *out = fopen(path, "w");
    if (!out)
        return fail("can't write the file");
    if (m->limits)
        put_limits(m, out);
    else
        put_heads(m, out, true);
    for (long i = 1; i <= n; i++) {
        char sheet[32];
        snprintf(sheet, sizeof sheet, "piano-%06ld,", i);
        put_sheet(m, out, sheet);
    }
    return fclose(out) == 0 ? 0 : fail("can't write the file");
}

int main(int argc, char **argv)
{
    if (argc != 5)
        return fail("usage: make_fleet RULES wide|tidy|limits SHEETS FILE|FOLDER/");
    const char *folders[] = {argv[1]}, *where = argv[4];
    const hl_shelf shelf = {.folders = folders, .n_folders = 1};
    maker m = {.tidy = strcmp(argv[2], "tidy") == 0, .limits = strcmp(argv[2], "limits") == 0, .state = 2026};
    hl_book *book = NULL;
    hl_err err;
    if (hl_book_open(&book, "grand", &shelf, &err) != HL_OK)
        return fail(err.what);
    m.book = book;
    for (int i = 0; i < hl_book_n_steps(book) && m.n_steps < STEPS_MOST; i++)
        if (hl_book_step(book, i)->kind == HL_MEASURED)
            m.steps[m.n_steps++] = i;
    bool folder = where[strlen(where) - 1] == '/';
    if (folder)
        mkdir(where, 0777);
    long n = strtol(argv[3], NULL, 10);
    int code = folder ? put_files(&m, where, n) : put_file(&m, where, n);
    hl_book_free(book);
    return code;
}
