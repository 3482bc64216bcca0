/* Which of the known bugs does the Lua have that we are linked with, and can a rule file reach them?
 *
 * The bugs are those of Lua's own list (lua.org/bugs.html, and the commits titled "Bug" after 5.4.4).
 * That Lua has one is told, never failed: nobody can mend the system's Lua here.  What fails is a
 * loader that lets a rule file write the construct. */
#include "rule_folder.h"

#include <lauxlib.h>
#include <lua.h>
#include <lualib.h>

#include <sys/wait.h>

/* Many constants before the probe: past 256 of them the compiler takes other ways. */
#define CONSTANTS 400

typedef struct bug {
    const char *what;
    const char *since; /* when upstream mended it */
    bool crowded;      /* shows only in a function with many constants */
    const char *probe; /* true: right; false or an error: the bug is there */
    const char *rule;  /* the same construct, as a rule file would write it */
    const char *says;  /* of the refusal */
} bug;

static const bug bugs[] = {
    {"wrong value of ~ with a constant", "2022-04", true, "return 1 ~ (2 or 3) == 3", "return 1 ~ (2 or 3)",
     "operator ~"},
    {"wrong value of | with a constant", "2022-04", true, "return 1 | (2 or 3) == 3", "return 1 | (2 or 3)",
     "operator |"},
    {"wrong value of & with a constant", "2022-04", true, "return 7 & (2 or 3) == 2", "return 7 & (2 or 3)",
     "operator &"},
    {"wrong code for an index that is a comparison", "2024-08", false,
     "local t = { [true] = 5 } local function f() return t[1 < 2] end return f() == 5",
     "local t = {} return t[1 < 2]", "comparison inside [ ]"},
    {"utf8.codes takes a stray continuation byte", "2022-09", false,
     "return not pcall(function () for _ in utf8.codes('ab\\x80') do end end)",
     "for _ in utf8.codes('ab') do end", "utf8 is not offered"},
    {"a constant _ENV ends the compiler", "2022-04", false,
     "return load('local _ENV <const> = {} return function () return X end') ~= nil",
     "local _ENV <const> = {} return function () return X end", ""},
    {"a chain of coroutine.close ends the process", "2022-10", false,
     "local function chain(n) if n == 0 then return end\n"
     "  local co co = coroutine.wrap(function ()\n"
     "    local x <close> = setmetatable({}, { __close = function () chain(n - 1) end })\n"
     "    coroutine.yield() end) co() end\n"
     "local co = coroutine.create(function ()\n"
     "  local t = {} for i = 1, 20000 do\n"
     "    local before = t[i - 1]\n"
     "    t[i] = coroutine.create(function ()\n"
     "      local x <close> = setmetatable({}, { __close = function () if before then "
     "coroutine.close(before) end end })\n"
     "      coroutine.yield() end)\n"
     "    coroutine.resume(t[i]) end\n"
     "  coroutine.close(t[20000]) end)\n"
     "coroutine.resume(co) return true",
     "coroutine.close(coroutine.create(function () end))", "coroutine is not offered"},
    {"a finalizer in an error in an error", "2022-05", false,
     "local ok = pcall(function ()\n"
     "  local t = setmetatable({}, { __gc = function () error('gc') end }) t = nil\n"
     "  error(setmetatable({}, { __tostring = function () error('inner') end })) end)\n"
     "return not ok",
     "setmetatable({}, { __gc = error })", "setmetatable is not offered"},
    {"concatenation of many long texts overflows", "2023-12", false,
     "local s = string.rep('x', 1 << 20) return #(s .. s .. s) == 3 << 20", "return string.rep('x', 9)",
     "string.rep is not offered"},
};

/* The probe's text, alone or crowded. */
static char *write_probe(const bug *b)
{
    const size_t room = (size_t)CONSTANTS * 16 + strlen(b->probe) + 64;
    char *text = malloc(room);
    assert_non_null(text);
    size_t n = 0;
    if (b->crowded) {
        n += (size_t)snprintf(text, room, "local _ = {\n");
        for (int i = 0; i < CONSTANTS; i++)
            n += (size_t)snprintf(text + n, room - n, "%d.5,\n", i);
        n += (size_t)snprintf(text + n, room - n, "}\n");
    }
    snprintf(text + n, room - n, "%s", b->probe);
    return text;
}

/* In a child: one of the bugs ends the process. */
static bool is_present(const bug *b)
{
    int status = 0;
    char *text = write_probe(b);
    const pid_t child = fork();
    assert_true(child >= 0);
    if (child == 0) {
        alarm(20);
        lua_State *L = luaL_newstate();
        if (L == NULL)
            _exit(2);
        luaL_openlibs(L);
        const bool right = luaL_dostring(L, text) == LUA_OK && lua_toboolean(L, -1);
        _exit(right ? 0 : 1);
    }
    free(text);
    assert_int_equal(waitpid(child, &status, 0), child);
    return !WIFEXITED(status) || WEXITSTATUS(status) != 0;
}

static void test_what_lua_gets_wrong(void **state)
{
    (void)state;
    print_message("linked with %s\n", LUA_RELEASE);
    for (size_t i = 0; i < sizeof bugs / sizeof *bugs; i++)
        print_message("%-48s mended %s  %s\n", bugs[i].what, bugs[i].since,
                      is_present(&bugs[i]) ? "PRESENT" : "not here");
}

static void test_no_rule_file_reaches_it(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof bugs / sizeof *bugs; i++) {
        rule_folder folder;
        hl_book *book = NULL;
        hl_err err = {0};
        open_folder(&folder);
        write_rule(&folder, "h", bugs[i].rule);
        const hl_code code = open_book(&folder, "h", &book, &err);
        close_folder(&folder);
        if (code != HL_E_RULE ||
            (strstr(err.what, bugs[i].says) == NULL && strstr(err.todo, bugs[i].says) == NULL))
            fail_msg("%s: code %d, %s; %s", bugs[i].rule, (int)code, err.what, err.todo);
        assert_null(book);
    }
}

/* Each operator in each place where an expression can be, and inside of texts that are none. */
static const char *const ways[] = {
    "local x = (1)|(2)",
    "local x = 1|2",
    "local x = 1 --[[ ]] | 2",
    "local x = '' local y = 1 | 2",
    "local x = [[ ]] local y = 1 & 2",
    "local x = 1 --\n| 2",
    "local x = \"\\\"\" | 2",
    "local x = ~1",
    "local x = 1 ~2",
    "local x = 1 <<2",
    "local x = 1>> 2",
    "if 1 & 2 ~= 3 then end",
    "local t = {} t[1 <2] = 1",
    "local t = {} t[t[1 <= 2]] = 1",
    "local t = {} t[ (1 ~= 2) ] = 1",
    "local t = {} t[not (1 > 2)] = 1",
    "local t = { [1 < 2] = 1 }",
    "local t = {} t[(function () return 1 < 2 end)()] = 1",
    "local t = {} t[1 < 2 and 1 or 2] = 1",
    "local x = 1 \\\n | 2",
};

/* Lua ends a line at each of these (Lua 5.4 manual, 3.1, and luaL_loadbuffer); so must the scan, or a comment
 * that has ended for Lua goes on for the scan and hides what follows. */
static const char *const line_ends[] = {"\n", "\r", "\r\n", "\n\r"};

/* Comments and texts that are over before the operator comes.  '$': the end of a line. */
static const char *const fronts[] = {
    "",
    "-- a comment$",
    "--$",
    "--[=x a short one$",
    "--[[ $ ]] ",
    "--[==[ ]] $ ]==] ",
    "local s = 'a\\$b' ",
    "local s = \"a\\z $ $b\" ",
    "local s = [[$]] ",
    "local s = [=[ ]] $ ]=] ",
    "local s = '\\'' ",
    "local s = '\\\\' ",
    "local n = 0xe--[[ no exponent ]]$",
    "local n = 1e-3 --'$",
    "$$$",
    "local t = {} t[ [[a]] ] = 1 $",
};

static void put_ends(char *out, size_t room, const char *text, const char *end)
{
    size_t n = 0;
    for (; *text != '\0'; text++) {
        const char *piece = *text == '$' || *text == '\n' ? end : (char[2]){*text, '\0'};
        n += (size_t)snprintf(out + n, room - n, "%s", piece);
        assert_true(n < room);
    }
}

static hl_code open_text(const char *text, hl_err *err)
{
    rule_folder folder;
    hl_book *book = NULL;
    *err = (hl_err){0};
    open_folder(&folder);
    write_rule(&folder, "h", text);
    const hl_code code = open_book(&folder, "h", &book, err);
    close_folder(&folder);
    assert_null(book);
    return code;
}

static void test_no_way_round_the_scan(void **state)
{
    (void)state;
    int passed = 0;
    for (size_t w = 0; w < sizeof ways / sizeof *ways; w++)
        for (size_t f = 0; f < sizeof fronts / sizeof *fronts; f++)
            for (size_t e = 0; e < sizeof line_ends / sizeof *line_ends; e++) {
                char marked[400], text[400];
                hl_err err;
                snprintf(marked, sizeof marked, "%s%s", fronts[f], ways[w]);
                put_ends(text, sizeof text, marked, line_ends[e]);
                const hl_code code = open_text(text, &err);
                if (code == HL_E_RULE &&
                    (strstr(err.what, "operator") != NULL || strstr(err.what, "comparison") != NULL))
                    continue;
                print_error("%s (end of line %zu): code %d, %s; %s\n", marked, e, (int)code, err.what,
                            err.todo);
                passed++;
            }
    assert_int_equal(passed, 0);
}

/* The other side: nothing in these is an operator that is refused, and the scan's count of lines is Lua's,
 * which tells the line of the error at the end. */
static void test_the_scan_counts_lines_as_lua_does(void **state)
{
    (void)state;
    static const char *const harmless[] = {
        "-- 1 | 2$",           "--[[ 1 | 2 $ ~ ]]$",     "local s = 'a | b & c'$",
        "local s = 'a\\$|'$",  "local s = [[ | $ ~ ]]$", "local s = \"\\z $ | \"$",
        "local n = 0xe - 1 $", "if 1 ~= 2 then end$",    "local s = ']]' --]] | $",
    };
    for (size_t h = 0; h < sizeof harmless / sizeof *harmless; h++)
        for (size_t f = 0; f < sizeof fronts / sizeof *fronts; f++)
            for (size_t e = 0; e < sizeof line_ends / sizeof *line_ends; e++) {
                char marked[400], text[400];
                hl_err err, refused;
                int line = 1;
                snprintf(marked, sizeof marked, "%s%serror 'the end'", fronts[f], harmless[h]);
                for (const char *at = marked; *at != '\0'; at++)
                    line += *at == '$';
                put_ends(text, sizeof text, marked, line_ends[e]);
                assert_int_equal(open_text(text, &err), HL_E_RULE);
                if (strstr(err.what, "the end") == NULL || err.line != line)
                    print_error("%s: line %d, not %d: %s\n", marked, err.line, line, err.what);
                assert_non_null(strstr(err.what, "the end"));
                assert_int_equal(err.line, line);
                /* The same place, counted by the scan. */
                snprintf(marked, sizeof marked, "%s%slocal x = 1 | 2", fronts[f], harmless[h]);
                put_ends(text, sizeof text, marked, line_ends[e]);
                assert_int_equal(open_text(text, &refused), HL_E_RULE);
                assert_non_null(strstr(refused.what, "operator |"));
                assert_int_equal(refused.line, line);
            }
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(test_what_lua_gets_wrong),
                                       cmocka_unit_test(test_no_rule_file_reaches_it),
                                       cmocka_unit_test(test_no_way_round_the_scan),
                                       cmocka_unit_test(test_the_scan_counts_lines_as_lua_does)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
