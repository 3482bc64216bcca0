/* fleet.c - many sheets, every core, one order (layer: fleet).
 *
 * Threads take whole sheets.  The list of work is never longer than a few places a thread, so a slow
 * sheet at its head holds the others up rather than letting results pile. */
#include "fleet.h"

#include "errors.h"
#include "judge.h"
#include "shared_head.h"

#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#define PLACES_A_THREAD 4

/* ---- the list of work ---------------------------------------------------------------------- */

static void free_node(hl_fleet_node *node)
{
    for (size_t i = 0; i < node->n; i++)
        hl__fleet_free_result(&node->results[i]);
    free(node->results);
    hl__fleet_close(node->file);
    free(node);
}

/* A new place after `before`, or at the end. */
static hl_fleet_node *add_node(hl_fleet *fleet, hl_fleet_node *before, int id)
{
    hl_fleet_node *node = calloc(1, sizeof *node);
    if (!node)
        return NULL;
    node->id = id;
    if (!before && fleet->last)
        before = fleet->last;
    node->next = before ? before->next : NULL;
    if (before)
        before->next = node;
    else
        fleet->first = node;
    if (!node->next)
        fleet->last = node;
    fleet->n_nodes++;
    return node;
}

static void drop_first(hl_fleet *fleet)
{
    hl_fleet_node *node = fleet->first;
    fleet->first = node->next;
    if (!fleet->first)
        fleet->last = NULL;
    fleet->n_nodes--;
    free_node(node);
}

/* ---- telling ------------------------------------------------------------------------------- */

static void refuse_apart(hl_fleet *fleet, hl_fleet_result *result)
{
    hl_err err;
    hl__fail(&err, HL_E_SHEET,
             "the rows of this sheet don't stand together: what was told of it before is void");
    hl__todo(&err, "sort the file by its column 'sheet'");
    hl__at(&err, result->title, 0, 0);
    hl_fleet_node one = {0};
    hl__fleet_refuse(&one, result->title, &err);
    fleet->no_memory |= one.no_memory;
    if (one.n == 1) {
        hl__fleet_free_result(result);
        *result = one.results[0];
    }
    free(one.results);
}

/* A name that comes a second time in its file: the rows between belong to others, so neither part is the
 * whole sheet, and what was told of the first is taken back. */
static void check_name(hl_fleet *fleet, int id, hl_fleet_result *result)
{
    if (result->name == 0)
        return;
    uint64_t *kept = hl__fleet_name(fleet, id, result->name);
    if (!kept) {
        fleet->no_memory = true;
        return;
    }
    const bool again = hl__fleet_told(*kept) != HL_TOLD_NEW;
    if (again)
        refuse_apart(fleet, result);
    result->again = again;
    result->was_judged = again && hl__fleet_told(*kept) != HL_TOLD_NOTHING;
    result->was_ready = again && hl__fleet_told(*kept) == HL_TOLD_READY;
    const bool ready = result->ready && result->code == HL_OK;
    hl__fleet_tell(kept, again || !result->judged ? HL_TOLD_NOTHING : ready ? HL_TOLD_READY : HL_TOLD_OPEN);
}

static void tell(hl_fleet *fleet, const hl_fleet_result *from)
{
    hl_fleet_sheet sheet = {.title = from->title,
                            .book = from->book,
                            .judged = from->judged,
                            .ready = from->ready,
                            .has_work = hl__judge_has_work(from->total),
                            .code = from->code,
                            .again = from->again,
                            .was_judged = from->was_judged,
                            .was_ready = from->was_ready,
                            .counts = (const int(*)[HL_VERDICTS])from->counts,
                            .cures = from->cures,
                            .errors = from->errors,
                            .n_errors = from->n_errors,
                            .unlisted = from->unlisted,
                            .audit = from->audit,
                            .text = from->text,
                            .size = from->size};
    memcpy(sheet.total, from->total, sizeof sheet.total);
    if (!fleet->take(fleet->take_context, &sheet))
        fleet->stopped = true;
}

/* The end of a large file, and not one sheet was found in it. */
static void tell_empty(hl_fleet *fleet, hl_fleet_node *rest)
{
    hl_err err;
    if (rest->n > 0 || fleet->told_of == rest->id)
        return;
    hl__fail(&err, HL_E_SHEET, "there is a header but no row below it, so nothing to judge");
    hl__todo(&err, "write a row for each note");
    hl__at(&err, rest->file->path, 0, 0);
    hl__fleet_refuse(rest, rest->file->path, &err);
}

/* Tell all that is done at the head of the list. */
static void tell_done(hl_fleet *fleet)
{
    while (fleet->first && fleet->first->done && !fleet->stopped) {
        hl_fleet_node *node = fleet->first;
        if (node->file)
            tell_empty(fleet, node);
        if (node->n > 0)
            fleet->told_of = node->id;
        fleet->no_memory |= node->no_memory;
        for (size_t i = 0; i < node->n && !fleet->stopped; i++) {
            check_name(fleet, node->id, &node->results[i]);
            fleet->stopped |= fleet->no_memory;
            if (!fleet->stopped)
                tell(fleet, &node->results[i]);
        }
        fleet->stopped |= fleet->no_memory;
        drop_first(fleet);
        pthread_cond_broadcast(&fleet->changed);
    }
}

/* ---- taking -------------------------------------------------------------------------------- */

/* The next thing to do: a path of its own, or a piece of `file` in the worker's bytes. */
typedef struct job {
    hl_fleet_node *node;
    char *path;
    const hl_fleet_file *file;
    size_t size;
    int line;
} job;

static bool is_full(const hl_fleet *fleet)
{
    return fleet->n_nodes >= fleet->most_nodes;
}

/* The place in front of a file's rest, for its next piece. */
static hl_fleet_node *put_piece(hl_fleet *fleet, hl_fleet_node *rest)
{
    /* The rest moves behind: the list is singly linked, and the new place takes over the old node. */
    hl_fleet_node *behind = add_node(fleet, rest, rest->id);
    if (!behind)
        return NULL;
    behind->file = rest->file;
    rest->file = NULL;
    return rest;
}

static bool take_piece(hl_fleet_worker *worker, job *out)
{
    hl_fleet *fleet = worker->fleet;
    for (hl_fleet_node *node = fleet->first; node; node = node->next) {
        hl_err err = {0};
        if (!node->file || node->done || (is_full(fleet) && node != fleet->first))
            continue;
        if (hl__fleet_piece(worker, node->file, &out->size, &out->line, &err)) {
            out->file = node->file;
            out->node = put_piece(fleet, node);
            fleet->no_memory |= !out->node;
            return out->node != NULL;
        }
        if (err.code != HL_OK)
            hl__fleet_refuse(node, node->file->path, &err);
        node->done = true;
    }
    return false;
}

static bool take_path(hl_fleet_worker *worker, job *out)
{
    hl_fleet *fleet = worker->fleet;
    if (fleet->drained || is_full(fleet))
        return false;
    const char *path = fleet->next(fleet->next_context);
    fleet->drained = path == NULL;
    if (!path)
        return false;
    out->path = malloc(strlen(path) + 1);
    out->node = out->path ? add_node(fleet, NULL, ++fleet->n_paths) : NULL;
    if (!out->node) {
        free(out->path);
        fleet->no_memory = true;
        return false;
    }
    strcpy(out->path, path);
    return true;
}

static void do_job(hl_fleet_worker *worker, const job *todo, hl_fleet_file **file)
{
    if (todo->path)
        hl__fleet_path(worker, todo->node, todo->path, file);
    else
        hl__fleet_rows(worker, todo->node, todo->file, worker->bytes, todo->size, todo->line);
}

/* ---- the threads --------------------------------------------------------------------------- */

static void *work(void *context)
{
    hl_fleet_worker *worker = context;
    hl_fleet *fleet = worker->fleet;
    pthread_mutex_lock(&fleet->lock);
    for (;;) {
        job todo = {0};
        hl_fleet_file *file = NULL;
        tell_done(fleet);
        fleet->stopped |= fleet->no_memory;
        if (fleet->stopped || (fleet->drained && !fleet->first))
            break;
        if (!take_piece(worker, &todo) && !take_path(worker, &todo)) {
            bool idle = fleet->first && !fleet->first->done && !fleet->no_memory;
            if (idle)
                pthread_cond_wait(&fleet->changed, &fleet->lock);
            continue;
        }
        pthread_mutex_unlock(&fleet->lock);
        do_job(worker, &todo, &file);
        free(todo.path);
        pthread_mutex_lock(&fleet->lock);
        todo.node->file = file;
        todo.node->done = file == NULL;
        if (file || fleet->first == todo.node)
            pthread_cond_broadcast(&fleet->changed);
    }
    pthread_cond_broadcast(&fleet->changed);
    pthread_mutex_unlock(&fleet->lock);
    return NULL;
}

static bool open_worker(hl_fleet_worker *worker, hl_fleet *fleet)
{
    *worker = (hl_fleet_worker){.fleet = fleet, .room = HL_FLEET_BLOCK};
    worker->bytes = malloc(worker->room + HL_FLEET_SPARE);
    const hl_audit_options *judging = fleet->options->judging;
    const bool plainly = !judging || (judging->rule == HL_RULE_SIMPLE && judging->sample.notes == 0);
    if (plainly && !fleet->options->keep && !fleet->options->print)
        worker->shared = hl__shared_new();
    return worker->bytes != NULL;
}

/* The caller is one of the threads.  Fewer than asked for is no failure. */
static void run_threads(hl_fleet_worker *workers, int n)
{
    pthread_t threads[HL_FLEET_THREADS];
    int started = 0;
    while (started < n - 1 && pthread_create(&threads[started], NULL, work, &workers[started + 1]) == 0)
        started++;
    work(&workers[0]);
    for (int i = 0; i < started; i++)
        pthread_join(threads[i], NULL);
}

static int count_threads(const hl_fleet_options *options)
{
    long n = options->threads > 0 ? options->threads : sysconf(_SC_NPROCESSORS_ONLN);
    return n < 1 ? 1 : n > HL_FLEET_THREADS ? HL_FLEET_THREADS : (int)n;
}

static void close_fleet(hl_fleet *fleet)
{
    while (fleet->first)
        drop_first(fleet);
    for (size_t i = 0; i < fleet->n_books; i++) {
        hl_book_free(fleet->books[i].book);
        free(fleet->books[i].name);
    }
    free(fleet->books);
    hl__fleet_free_names(fleet);
    pthread_mutex_destroy(&fleet->lock);
    pthread_mutex_destroy(&fleet->book_lock);
    pthread_cond_destroy(&fleet->changed);
}

hl_code hl_fleet_run(const hl_fleet_options *options, hl_fleet_next *next, void *next_context,
                     hl_fleet_take *take, void *take_context, hl_err *err)
{
    const int n = count_threads(options);
    hl_fleet fleet = {.options = options,
                      .next = next,
                      .take = take,
                      .next_context = next_context,
                      .take_context = take_context,
                      .most_nodes = PLACES_A_THREAD * n};
    hl_fleet_worker *workers = calloc((size_t)n, sizeof *workers);
    int opened = 0;
    *err = (hl_err){0};
    if (!workers)
        return hl__no_memory(err);
    pthread_mutex_init(&fleet.lock, NULL);
    pthread_mutex_init(&fleet.book_lock, NULL);
    pthread_cond_init(&fleet.changed, NULL);
    while (opened < n && open_worker(&workers[opened], &fleet))
        opened++;
    if (opened > 0)
        run_threads(workers, opened);
    for (int i = 0; i < n; i++) {
        free(workers[i].bytes);
        hl__shared_free(workers[i].shared);
    }
    free(workers);
    const bool failed = fleet.no_memory || opened == 0;
    close_fleet(&fleet);
    return failed ? hl__no_memory(err) : HL_OK;
}
