/* fuzz_rules.c - the rule loader: any bytes, and mutated valid books, with a few good files beside them.
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

/* ---- mutation ----------------------------------------------------------------------------------- */

/* Bytes changed anywhere make text that is no Lua, nearly always; the building of a book is reached by
 * changes that leave it Lua: one token for another of its kind, a field more or less, a file of a book in
 * another's place. */

#define TOKENS_MOST 2048

typedef struct token {
    size_t at, size;
    char kind; /* 'w' word, 'n' number, 's' string, or the mark itself */
} token;

static uint32_t draw(uint32_t *seed, uint32_t below)
{
    *seed = *seed * 1664525u + 1013904223u;
    return (*seed >> 8) % below;
}

static bool is_letter(uint8_t c)
{
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == '_';
}

static bool is_digit(uint8_t c)
{
    return c >= '0' && c <= '9';
}

static size_t list_tokens(token tokens[TOKENS_MOST], const uint8_t *text, size_t size)
{
    size_t n = 0;
    for (size_t i = 0; i < size && n < TOKENS_MOST;) {
        const size_t from = i;
        char kind = (char)text[i];
        if (text[i] == ' ' || text[i] == '\n') {
            i++;
            continue;
        }
        if (is_letter(text[i])) {
            kind = 'w';
            while (i < size && (is_letter(text[i]) || is_digit(text[i])))
                i++;
        } else if (is_digit(text[i])) {
            kind = 'n';
            while (i < size && (is_digit(text[i]) || text[i] == '.'))
                i++;
        } else if (text[i] == '\'' || text[i] == '"') {
            kind = 's';
            for (i++; i < size && text[i] != text[from] && text[i] != '\n'; i++)
                ;
            i += i < size;
        } else if (i + 1 < size && text[i] == '-' && text[i + 1] == '-') {
            while (i < size && text[i] != '\n')
                i++;
            continue;
        } else {
            i++;
        }
        tokens[n++] = (token){from, i - from, kind};
    }
    return n;
}

/* What stands from `at` on, `size` bytes of it, becomes `with`. */
static size_t put(uint8_t *text, size_t all, size_t most, size_t at, size_t size, const void *with,
                  size_t more)
{
    if (all - size + more > most)
        return all;
    uint8_t kept[MOST];
    memcpy(kept, with, more < sizeof kept ? more : sizeof kept); /* it may be a part of the text */
    if (more > sizeof kept)
        return all;
    memmove(text + at + more, text + at + size, all - at - size);
    memcpy(text + at, kept, more);
    return all - size + more;
}

/* From the token to the comma that ends its field, brackets counted. */
static size_t find_field_end(const token *tokens, size_t n, size_t from)
{
    int depth = 0;
    for (size_t i = from; i < n; i++) {
        const char kind = tokens[i].kind;
        depth += (kind == '{' || kind == '(') - (kind == '}' || kind == ')');
        if (depth < 0)
            return i;
        if (depth == 0 && kind == ',')
            return i + 1;
    }
    return n;
}

static size_t change_token(uint8_t *text, size_t size, size_t most, const token *tokens, size_t n,
                           uint32_t *seed)
{
    static const char *const words[] = {
        "nil",     "range",  "about",   "at_most", "at_least", "zones",    "by_colour", "even",
        "fix",     "masks",  "moves",   "target",  "unit",     "scope",    "once",      "optional",
        "kind",    "judged", "derived", "formula", "facts",    "sizes",    "finest",    "reach",
        "assumed", "drop",   "feel",    "base",    "extends",  "override", "step",      "adjuster",
        "fact",    "use",    "stage",   "title",   "value",    "id"};
    static const char *const numbers[] = {"0", "1",    "-1",  "0.1", "1e9",  "88",     "89",   "1/8",
                                          "7", "1e-9", "0/0", "1/0", "25.4", "999999", "2^53", "-0.0"};
    static const char *const strings[] = {
        "'mm'",     "'in'",    "'turn'",   "'g'",         "'deg'",   "'step'",  "''",
        "'A0'",     "'C4-C8'", "'drop'",   "'feel'",      "'screw'", "'ratio'", "'drop + ratio * 2'",
        "'-ratio'", "'1/0'",   "'strong'", "'grand/blow'"};
    const token *one = &tokens[draw(seed, (uint32_t)n)];
    const token *other = &tokens[draw(seed, (uint32_t)n)];
    if (other->kind == one->kind && draw(seed, 2) == 0)
        return put(text, size, most, one->at, one->size, text + other->at, other->size);
    const char *with = one->kind == 'n'   ? numbers[draw(seed, sizeof numbers / sizeof *numbers)]
                       : one->kind == 's' ? strings[draw(seed, sizeof strings / sizeof *strings)]
                       : one->kind == 'w' ? words[draw(seed, sizeof words / sizeof *words)]
                                          : NULL;
    return with == NULL ? size : put(text, size, most, one->at, one->size, with, strlen(with));
}

/* A field is left out, written twice, or moved in front of another. */
static size_t change_field(uint8_t *text, size_t size, size_t most, const token *tokens, size_t n,
                           uint32_t *seed)
{
    const size_t from = draw(seed, (uint32_t)n), end = find_field_end(tokens, n, from);
    if (end <= from || end >= n)
        return size;
    const size_t at = tokens[from].at, more = tokens[end].at - at;
    if (draw(seed, 3) == 0)
        return put(text, size, most, at, more, "", 0);
    return put(text, size, most, tokens[draw(seed, (uint32_t)n)].at, 0, text + at, more);
}

size_t LLVMFuzzerMutate(uint8_t *data, size_t size, size_t most);
size_t LLVMFuzzerCustomMutator(uint8_t *data, size_t size, size_t most, unsigned first);

size_t LLVMFuzzerCustomMutator(uint8_t *data, size_t size, size_t most, unsigned first)
{
    static token tokens[TOKENS_MOST];
    uint32_t seed = first;
    if (draw(&seed, 8) == 0)
        return LLVMFuzzerMutate(data, size, most);
    most = most < MOST ? most : MOST;
    for (uint32_t i = draw(&seed, 4) + 1; i > 0; i--) {
        const size_t n = list_tokens(tokens, data, size);
        if (n == 0 || size > most)
            break;
        size = draw(&seed, 4) > 0 ? change_token(data, size, most, tokens, n, &seed)
                                  : change_field(data, size, most, tokens, n, &seed);
    }
    return size;
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
