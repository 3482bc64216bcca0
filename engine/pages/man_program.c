/* man_program.c - the page of the program, and those of its files (layer: pages). */
#include "pages.h"

#include <stdlib.h>
#include <string.h>

static void put_commands(roff *page)
{
    char name[64];
    put_heading(page, ".SH", "COMMANDS");
    for (const command *row = commands; row->name; row++) {
        put_request(page, ".TP");
        snprintf(name, sizeof name, "hammerline-%s", row->name);
        add_reference(page, name, 1, "");
        end_words(page);
        add_plain(page, row->about, strlen(row->about));
        add_words(page, ".", 1);
        end_words(page);
    }
}

void write_program_page(const job *of)
{
    roff page;
    char *text = read_document(of, "man/hammerline.md");
    begin_page(&page, of, "hammerline", 1);
    put_name(&page, "hammerline",
             "check the regulation of a piano action, and say what to turn, and how far");
    put_heading(&page, ".SH", "SYNOPSIS");
    add_literal(&page, 'B', "hammerline", 10);
    add_words(&page, " *COMMAND* [*OPTION*...]", 24);
    put_request(&page, ".br");
    add_words(&page, "`hammerline` *COMMAND* `--help`", 31);
    put_heading(&page, ".SH", "DESCRIPTION");
    const char *rest = put_document(&page, text, "## ");
    put_commands(&page);
    put_heading(&page, ".SH", "OPTIONS");
    add_words(&page, "Every command takes these.", 26);
    put_options(&page, common_options);
    put_exit_codes(&page);
    put_document(&page, rest, NULL);
    put_see_also(&page, "hammerline");
    end_page(&page);
    free(text);
}

void write_document_page(const job *of, const char *name, const char *document, const char *about)
{
    roff page;
    char *text = read_document(of, document);
    char other[64];
    begin_page(&page, of, name, 5);
    put_name(&page, name, about);
    put_heading(&page, ".SH", "DESCRIPTION");
    put_document(&page, text, NULL);
    snprintf(other, sizeof other, "%s(5)", name);
    put_see_also(&page, other);
    end_page(&page);
    free(text);
}
