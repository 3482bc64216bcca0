/* load.c - running one rule file (layer: host).  The loader owns the Lua state; entries are the
 * arena's and outlive it. */
#include "load.h"

#include "file.h"
#include "library.h"
#include "lua_to_value.h"
#include "words.h"

#include <lauxlib.h>
#include <stdlib.h>
#include <string.h>

/* Registry key of the table of everything that a rule file can see: its address. */
static const char names_key = 'n';

static int prepare(lua_State *L)
{
    hl__library_push(L);
    /* The words are added behind the back of the table's __index, which explains what is missing. */
    hl__words_add(L);
    lua_rawsetp(L, LUA_REGISTRYINDEX, &names_key);
    return 0;
}

hl_code hl__loader_open(hl_loader *loader, hl_arena *arena, const hl_shelf *shelf, hl_complaints *all,
                        hl_err *err)
{
    *loader = (hl_loader){0};
    hl__hash_start(&loader->hash);
    hl_code code = hl__files_start(&loader->files, arena, shelf, err);
    if (code == HL_OK)
        code = hl__sandbox_open(&loader->box, arena, shelf, err);
    if (code == HL_OK)
        code = hl__sandbox_call(&loader->box, prepare, NULL, "", err);
    loader->box.all = all;
    return code;
}

void hl__loader_close(hl_loader *loader)
{
    hl__sandbox_close(&loader->box);
    hl__outline_free(&loader->outline);
    hl__files_end(&loader->files);
}

typedef struct source {
    const char *text;
    size_t size;
    hl_entry *result;
} source;

static int run(lua_State *L)
{
    source *from = lua_touserdata(L, 1);
    if (luaL_loadbufferx(L, from->text, from->size, "=" HL_SANDBOX_CHUNK, "t") != LUA_OK)
        return lua_error(L);
    lua_rawgetp(L, LUA_REGISTRYINDEX, &names_key);
    hl__library_push_environment(L, lua_gettop(L));
    lua_setupvalue(L, -3, 1);
    lua_pop(L, 1);
    int before = lua_gettop(L) - 1;
    lua_call(L, 0, LUA_MULTRET);
    int n = lua_gettop(L) - before;
    hl_sandbox *box = hl__sandbox_of(L);
    box->line = 1;
    if (n == 0)
        hl__sandbox_error(L, "end it with return step { ... } or return book { ... }",
                          "the file returns nothing");
    if (n > 1)
        hl__sandbox_error(L, "return one step or one book", "the file returns %d things", n);
    from->result = hl__lift_entry(L, -1);
    if (from->result == NULL)
        hl__sandbox_error(L, "end it with return step { ... } or return book { ... }",
                          "the file returns a %s", luaL_typename(L, -1));
    return 0;
}

static hl_code refuse_stray(const hl_entry *entry, hl_err *err)
{
    bool by_choice = entry->word == HL_W_BY_CHOICE;
    hl__fail(err, HL_E_RULE, "this %s is in no %s and would have no effect", hl__word_name(entry->word),
             by_choice ? "step or change" : "book");
    hl__todo(err, by_choice ? "give it to a field: target = by_choice { ... }"
                            : "put it into the list of the book that the file returns");
    return hl__at(err, entry->origin.file, entry->origin.line, 0);
}

/* An entry that was made and is in no book would be ignored in silence. */
static hl_code check_strays(const hl_loader *loader, hl_err *err)
{
    const hl_entry *first = NULL;
    hl_code code = HL_OK;
    for (const hl_entry *entry = loader->box.made; code == HL_OK && entry != NULL; entry = entry->next) {
        if (entry->placed || hl__is_target(entry))
            continue;
        first = entry; /* the list is latest first */
        if (loader->box.all != NULL)
            code = hl__keep_error(loader->box.all, refuse_stray(entry, err), err);
    }
    return first != NULL && loader->box.all == NULL ? refuse_stray(first, err) : code;
}

static void sort_by_line(hl_complaints *all, size_t from)
{
    for (size_t i = from + 1; i < all->n; i++) {
        const hl_err one = all->items[i];
        size_t k = i;
        for (; k > from && all->items[k - 1].line > one.line; k--)
            all->items[k] = all->items[k - 1];
        all->items[k] = one;
    }
}

static hl_code run_text(hl_entry **out, hl_loader *loader, const hl_rule_file *file, const char *text,
                        size_t size, hl_err *err)
{
    hl__hash_add(&loader->hash, text, size);
    if (size >= 3 && memcmp(text, "\xEF\xBB\xBF", 3) == 0) {
        text += 3;
        size -= 3;
    }
    hl_code code = hl__scan(text, size, &loader->outline, err);
    if (code != HL_OK)
        return code == HL_E_MEMORY ? code : hl__at(err, file->shown, err->line, 0);
    loader->box.made = NULL;
    source from = {text, size, NULL};
    loader->box.outline = &loader->outline; /* it points into the text, which goes when this returns */
    code = hl__sandbox_call(&loader->box, run, &from, file->shown, err);
    loader->box.outline = NULL;
    if (code != HL_OK)
        return code;
    from.result->placed = true;
    *out = from.result;
    return check_strays(loader, err);
}

hl_code hl__load(hl_entry **out, hl_loader *loader, const hl_rule_file *file, hl_err *err)
{
    *out = NULL;
    char *text;
    size_t size;
    hl_complaints *all = loader->box.all;
    const size_t before = all != NULL ? all->n : 0;
    hl_code code = hl__file_read(&text, &size, file->real, HL_RULE_FILE_MOST, HL_E_RULE, err);
    if (code == HL_OK) {
        code = run_text(out, loader, file, text, size, err);
        free(text);
    } else {
        hl__at(err, file->shown, 0, 0);
    }
    if (loader->box.trip == HL_TRIP_NONE) /* after a trip every file would trip again */
        code = hl__keep_error(all, code, err);
    if (all != NULL && all->n > before)
        sort_by_line(all, before);
    return code;
}
