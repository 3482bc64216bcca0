/* order.c - the order in which steps are computed from others (layer: book). */
#include "book.h"

enum { NOT_SEEN, ON_THE_WAY, DONE };

/* Steps go into the order when all that they need is in it.  A formula that comes back to a step on the way
 * closes a circle.  Formulas nest at most n_steps deep. */
static hl_order_result visit(hl_book *book, unsigned char *marks, int step, int circle[2])
{
    const hl_formula *formula = book->steps[step].formula;
    if (formula == NULL || marks[step] == DONE) {
        return HL_ORDERED;
    }
    marks[step] = ON_THE_WAY;
    for (int i = 0; i < formula->n_vars; i++) {
        const hl_var *var = &formula->vars[i];
        if (var->kind != HL_VAR_STEP) {
            continue;
        }
        if (marks[var->index] == ON_THE_WAY) {
            circle[0] = step;
            circle[1] = var->index;
            return HL_IN_CIRCLE;
        }
        const hl_order_result result = visit(book, marks, var->index, circle);
        if (result != HL_ORDERED) {
            return result;
        }
    }
    marks[step] = DONE;
    book->order[book->n_order++] = step;
    return HL_ORDERED;
}

hl_order_result hl__book_find_order(hl_book *book, int circle[2])
{
    const size_t n = (size_t)book->n_steps + 1;
    unsigned char *marks = hl__arena_array(&book->arena, n, 1);
    hl_order_result result = HL_ORDERED;
    book->order = hl__arena_array(&book->arena, n, sizeof *book->order);
    book->n_order = 0;
    if (book->order == NULL || marks == NULL) {
        return HL_NO_ORDER_ROOM;
    }
    for (int i = 0; result == HL_ORDERED && i < book->n_steps; i++) {
        result = visit(book, marks, i, circle);
    }
    return result;
}
