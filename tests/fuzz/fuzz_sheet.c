/* fuzz_sheet.c - the sheet reader, and all that prints what stands in a sheet.
 *
 * Every bad row has its place; nothing printed for a person holds a control character, whatever the
 * sheet holds; nothing printed for a browser holds a tag of the sheet's; a sheet written anew reads
 * back without an error. */
#include "fuzz.h"

#include "hammerline.h"
#include "small_book.h"
#include "text.h"

#include <string.h>

#define MOST 8192 /* bytes; longer ones show nothing that short ones don't */

/* No controls but line ends, no C1, no mark that turns the direction of what follows. */
static void check_terminal(const char *text, size_t size)
{
    for (size_t i = 0; i < size;) {
        uint32_t point = 0;
        const int taken = hl__utf8_next(text + i, size - i, &point);
        PROMISE(taken > 0);
        PROMISE(point == '\n' || (point >= 0x20 && point != 0x7f && !(point >= 0x80 && point <= 0x9f)));
        PROMISE(!(point >= 0x202a && point <= 0x202e) && !(point >= 0x2066 && point <= 0x2069));
        PROMISE(point != 0x200e && point != 0x200f && point != 0x61c);
        i += (size_t)taken;
    }
}

static void check_json(const char *text, size_t size)
{
    for (size_t i = 0; i < size; i++)
        PROMISE(text[i] == '\n' || (unsigned char)text[i] >= 0x20);
}

/* The sheet's own tags are written as text: what is left are ours, and no script is among them. */
static void check_html(const char *text)
{
    PROMISE(strstr(text, "<script") == NULL && strstr(text, "<SCRIPT") == NULL);
    PROMISE(strstr(text, "<img") == NULL && strstr(text, "<fuzz") == NULL);
    bool tag = false, quoted = false; /* of ours: no handler, nothing of the sheet's outside quotes */
    for (const char *c = text; *c; c++) {
        tag = !tag ? *c == '<' : quoted || *c != '>';
        quoted = tag && (*c == '"' ? !quoted : quoted);
        PROMISE(!tag || quoted || (strncmp(c, " on", 3) != 0 && strncmp(c, "fuzz", 4) != 0));
        PROMISE(!quoted || strncmp(c, "\"javascript:", 12) != 0);
    }
}

static void check_errors(const hl_sheet *sheet)
{
    int n = 0;
    const hl_err *errors = hl_sheet_errors(sheet, &n);
    for (int i = 0; i < n; i++) {
        char *text = NULL;
        size_t size = 0;
        PROMISE(errors[i].code == HL_E_SHEET && errors[i].what[0] != '\0' && errors[i].line >= 0);
        PROMISE(hl_err_text(&text, &size, &errors[i]) == HL_OK);
        check_terminal(text, size);
        hl_free(text);
    }
}

static void check_prints(const hl_audit *audit, bool html)
{
    const hl_print page = {.width = 60};
    char *text = NULL;
    size_t size = 0;
    hl_err err;
    PROMISE(hl_audit_text(&text, &size, audit, &page, &err) == HL_OK);
    check_terminal(text, size);
    hl_free(text);
    PROMISE(hl_audit_json(&text, &size, audit, &err) == HL_OK);
    check_json(text, size);
    hl_free(text);
    if (html) {
        PROMISE(hl_report_html(&text, &size, audit, NULL, &err) == HL_OK);
        check_html(text);
        hl_free(text);
    }
}

static void check_plan(const hl_audit *audit)
{
    const hl_print page = {.width = 60};
    hl_plan *plan = NULL;
    char *text = NULL;
    size_t size = 0;
    hl_err err;
    PROMISE(hl_plan_run(&plan, audit, NULL, &err) == HL_OK);
    PROMISE(hl_plan_text(&text, &size, plan, &page, &err) == HL_OK);
    check_terminal(text, size);
    hl_free(text);
    hl_plan_free(plan);
}

/* Written anew, in both forms. */
static void check_written(const hl_sheet *sheet, const hl_book *book)
{
    for (int wide = 0; wide < 2; wide++) {
        char *text = NULL, *lost = NULL;
        size_t size = 0;
        hl_err err;
        hl_sheet *again = NULL;
        const hl_code code = wide ? hl_sheet_as_wide(&text, &size, sheet, &lost, &err)
                                  : hl_sheet_as_tidy(&text, &size, sheet, &err);
        PROMISE(code == HL_OK || (code == HL_E_SHEET && err.what[0] != '\0'));
        if (code == HL_OK) {
            PROMISE(hl_sheet_open_text(&again, "again.csv", text, size, &err) == HL_OK);
            PROMISE(hl_sheet_read(again, book, &err) == HL_OK);
        }
        hl_sheet_free(again);
        hl_free(lost);
        hl_free(text);
    }
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    static hl_book *book; /* the same for every input, and never given back */
    hl_sheet *sheet = NULL;
    hl_audit *audit = NULL;
    hl_err err = {0};
    if (size > MOST)
        return 0;
    if (book == NULL) {
        book = small_book();
        book->compass = (hl_compass){.lowest = 48, .keys = 8}; /* C4 to G4: ten times as many tries */
    }
    if (hl_sheet_open_text(&sheet, "fuzz.csv", (const char *)data, size, &err) != HL_OK) {
        PROMISE(err.code == HL_E_SHEET && err.what[0] != '\0' && sheet == NULL);
        return 0;
    }
    const hl_code code = hl_sheet_read(sheet, book, &err);
    PROMISE(code == HL_OK || code == HL_E_SHEET);
    check_errors(sheet);
    if (hl_audit_run(&audit, sheet, book, NULL, &err) == HL_OK) {
        PROMISE(code == HL_OK || !hl_audit_ready(audit));
        check_prints(audit, memchr(data, '<', size) != NULL); /* the slowest by far */
        check_plan(audit);
    }
    if (code == HL_OK)
        check_written(sheet, book);
    hl_audit_free(audit);
    hl_sheet_free(sheet);
    return 0;
}
