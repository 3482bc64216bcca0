/* fuzz_rules.c - the rule loader: any bytes as a book, with a few good files beside it.
 *
 * A book opens, or is refused with a place; neither takes long nor much; what opened can be printed
 * and checked. */
#include "fuzz.h"

#include "hammerline.h"

#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#define MOST 8192

static char folder[200];

static void write_rule(const char *name, const void *bytes, size_t size)
{
    char path[300];
    snprintf(path, sizeof path, "%s/%s.lua", folder, name);
    FILE *file = fopen(path, "wb");
    PROMISE(file != NULL && fwrite(bytes, 1, size, file) == size && fclose(file) == 0);
}

static void take_away(void)
{
    static const char *const names[] = {"h", "drop", "feel", "base"};
    char path[300];
    for (size_t i = 0; i < sizeof names / sizeof *names; i++) {
        snprintf(path, sizeof path, "%s/%s.lua", folder, names[i]);
        remove(path);
    }
    rmdir(folder);
}

/* What a book may use (invented figures). */
static void make_folder(void)
{
    static const char drop[] =
        "return step { id = 'drop', title = 'Drop', stage = 'set', unit = 'mm',\n"
        "  ask = 'a', why = 'w', resolution = 0.1, fix = { 'screw' }, masks = { 'feel' },\n"
        "  target = zones { { 'A0-B2', range(1, 3) }, { 'C3-C8', about(2, 1) } } }\n";
    static const char feel[] = "return step { id = 'feel', title = 'Feel', stage = 'set', kind = 'judged',\n"
                               "  ask = 'a', why = 'w', faults = { { 'heavy', todo = 't' } } }\n";
    static const char base[] =
        "return book { id = 'base', api = 1, title = 'Base', stage { 'set', title = 'S' },\n"
        "  fact { 'ratio', title = 'ratio', unit = 'ratio', value = 5 },\n"
        "  adjuster { 'screw', title = 'screw', unit = 'turn', more = 'in', less = 'out',\n"
        "    sizes = { 1, '1/8' }, moves = { drop = 1.5, feel = 'slight' } },\n"
        "  use 'drop', use 'feel' }\n";
    const char *base_folder = access("/dev/shm", W_OK) == 0 ? "/dev/shm" : "/tmp";
    snprintf(folder, sizeof folder, "%s/fuzz-rules-XXXXXX", base_folder);
    PROMISE(mkdtemp(folder) != NULL);
    atexit(take_away);
    write_rule("drop", drop, sizeof drop - 1);
    write_rule("feel", feel, sizeof feel - 1);
    write_rule("base", base, sizeof base - 1);
}

static void check_book(const hl_book *book)
{
    const hl_print page = {.width = 60};
    char *text = NULL;
    size_t size = 0;
    hl_err err;
    hl_complaints complaints = {.n = 0};
    PROMISE(strlen(hl_book_hash(book)) == 64);
    PROMISE(hl_book_text(&text, &size, book, &page, &err) == HL_OK);
    for (size_t i = 0; i < size; i++)
        PROMISE(text[i] == '\n' || ((unsigned char)text[i] >= 0x20 && text[i] != 0x7f));
    hl_free(text);
    for (int i = 0; i < hl_book_n_steps(book) && i < 8; i++) {
        PROMISE(hl_step_text(&text, &size, book, i, 0, &page, &err) == HL_OK);
        hl_free(text);
    }
    for (int i = 0; i < hl_book_n_adjusters(book) && i < 8; i++) {
        PROMISE(hl_adjuster_text(&text, &size, book, i, 0, &page, &err) == HL_OK);
        hl_free(text);
    }
    PROMISE(hl_sheet_blank(&text, &size, book, &err) == HL_OK);
    hl_free(text);
    PROMISE(hl_book_check(&complaints, book, &err) == HL_OK);
    PROMISE(hl_book_warn(&complaints, book, &err) == HL_OK);
    hl_complaints_free(&complaints);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    const char *const folders[] = {folder};
    const hl_shelf shelf = {
        .folders = folders, .n_folders = 1, .memory = 2 << 20, .steps = 50000, .seconds = 1};
    hl_book *book = NULL;
    hl_err err = {0};
    if (size > MOST)
        return 0;
    if (folder[0] == '\0')
        make_folder();
    write_rule("h", data, size);
    const hl_code code = hl_book_open(&book, "h", &shelf, &err);
    PROMISE((code == HL_OK) == (book != NULL));
    PROMISE(code == HL_OK || (code == HL_E_RULE && err.what[0] != '\0' && err.file[0] != '\0'));
    if (book != NULL)
        check_book(book);
    hl_book_free(book);
    return 0;
}
