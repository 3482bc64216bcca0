/* audit_format.h - the format that an audit is printed in (layer: cli/commands). */
#ifndef HL_AUDIT_FORMAT_H
#define HL_AUDIT_FORMAT_H

#include "options.h"

/* The format that was asked for; NULL after a complaint. */
const hl_format *choose_format(const request *asked);
bool is_text(const hl_format *format);

/* Items on their way to standard output, a head before the first and what belongs between. */
typedef struct printing {
    const hl_format *format;
    bool alone; /* one sheet by itself */
    long n;     /* items begun */
} printing;

/* Each returns an exit code.  Begin an item before anything is said of its sheet, so that complaints stand
 * on lines of their own. */
int begin_item(printing *to);
/* A sheet that could not be judged, by its title. */
int print_refused(printing *to, const char *title, const hl_err *errors, int n);
/* The end of all items. */
int end_items(printing *to);

#endif
