/* The shipped books stand in the library as constants; the files on the disk still rule.
 *
 * What is compared is made by the program that pressed them: both books, written down, must be one text. */
#include "press.h"
#include "pressed.h"
#include "rule_folder.h"
#include "shipped.h"

static const char *const shipped[] = {"grand", "upright"};

static const hl_pressed *pressed_of(const char *id)
{
    for (int i = 0; i < hl__n_pressed; i++)
        if (strcmp(hl__pressed[i].book->id, id) == 0)
            return &hl__pressed[i];
    fail_msg("%s is not pressed", id);
    return NULL;
}

/* A folder with the very files that the book was pressed from. */
static void lay_out(rule_folder *folder, const hl_pressed *pressed)
{
    open_folder(folder);
    for (int i = 0; i < pressed->n_files; i++) {
        char name[80];
        const size_t n = strlen(pressed->files[i].name) - strlen(".lua");
        snprintf(name, sizeof name, "%.*s", (int)n, pressed->files[i].name);
        write_rule_bytes(folder, name, pressed->files[i].text, pressed->files[i].size);
    }
}

static char *write_down(const hl_book *book)
{
    char *text = NULL;
    size_t size = 0;
    FILE *out = open_memstream(&text, &size);
    assert_non_null(out);
    press_book(out, book);
    assert_int_equal(fclose(out), 0);
    return text;
}

static const hl_book *find_in(const rule_folder *folder, const char *id)
{
    const char *folders[] = {folder->path};
    const hl_shelf shelf = {.folders = folders, .n_folders = 1};
    return hl__pressed_find(id, &shelf);
}

static void a_pressed_book_is_the_book_that_lua_would_make(void **state)
{
    (void)state;
    const char *const folders[] = {RULES_FOLDER};
    /* who states a limit has Lua run */
    const hl_shelf limited = {.folders = folders, .n_folders = 1, .memory = (size_t)16 << 20};
    for (size_t i = 0; i < sizeof shipped / sizeof *shipped; i++) {
        hl_book *made = NULL;
        hl_err err;
        assert_null(hl__pressed_find(shipped[i], &limited));
        assert_int_equal(hl_book_open(&made, shipped[i], &limited, &err), HL_OK);
        hl_book *given = open_shipped(shipped[i]);
        assert_ptr_equal(given->steps, pressed_of(shipped[i])->book->steps); /* no copy, no Lua */
        char *one = write_down(made), *other = write_down(given);
        assert_true(strlen(one) > 100000);
        assert_string_equal(one, other);
        free(one);
        free(other);
        hl_book_free(made);
        hl_book_free(given);
    }
}

static void the_same_bytes_elsewhere_are_the_same_book(void **state)
{
    (void)state;
    rule_folder folder;
    lay_out(&folder, pressed_of("grand"));
    assert_ptr_equal(find_in(&folder, "grand"), pressed_of("grand")->book);
    assert_null(find_in(&folder, "upright"));
    close_folder(&folder);
}

static void one_letter_changed_in_any_file_has_lua_run(void **state)
{
    (void)state;
    const hl_pressed *pressed = pressed_of("grand");
    rule_folder folder;
    lay_out(&folder, pressed);
    for (int i = 0; i < pressed->n_files; i++) {
        const hl_pressed_file *file = &pressed->files[i];
        char *text = malloc(file->size + 1);
        assert_non_null(text);
        memcpy(text, file->text, file->size);
        text[file->size] = ' ';
        write_rule_bytes(&folder, folder.names[i], text, file->size + 1); /* longer */
        assert_null(find_in(&folder, "grand"));
        write_rule_bytes(&folder, folder.names[i], text, file->size - 1); /* shorter */
        assert_null(find_in(&folder, "grand"));
        text[file->size / 2] ^= 1;
        write_rule_bytes(&folder, folder.names[i], text, file->size); /* as long */
        assert_null(find_in(&folder, "grand"));
        write_rule_bytes(&folder, folder.names[i], file->text, file->size);
        folder.n -= 4; /* the names stand there already */
        assert_non_null(find_in(&folder, "grand"));
        free(text);
    }
    close_folder(&folder);
}

static void a_changed_file_is_what_the_book_says(void **state)
{
    (void)state;
    const hl_pressed *pressed = pressed_of("grand");
    rule_folder folder;
    lay_out(&folder, pressed);
    for (int i = 0; i < pressed->n_files; i++) {
        if (strcmp(pressed->files[i].name, "grand/blow.lua") != 0)
            continue;
        char *text = strdup(pressed->files[i].text);
        assert_non_null(text);
        char *title = strstr(text, "title = \"");
        assert_non_null(title);
        title[strlen("title = \"")] = 'X';
        write_rule(&folder, folder.names[i], text);
        folder.n--;
        free(text);
    }
    hl_book *book = NULL;
    hl_err err;
    assert_int_equal(open_book(&folder, "grand", &book, &err), HL_OK);
    assert_int_equal(hl_book_step(book, hl_book_find_step(book, "blow"))->title[0], 'X');
    assert_string_not_equal(hl_book_hash(book), hl_book_hash(pressed->book));
    hl_book_free(book);
    close_folder(&folder);
}

static void a_file_that_is_gone_or_no_file_is_told(void **state)
{
    (void)state;
    char path[400];
    rule_folder folder;
    lay_out(&folder, pressed_of("upright"));
    snprintf(path, sizeof path, "%s/%s.lua", folder.path, folder.names[1]);
    assert_int_equal(remove(path), 0);
    hl_book *book = NULL;
    hl_err err;
    assert_int_equal(open_book(&folder, "upright", &book, &err), HL_E_RULE);
    assert_int_equal(mkfifo(path, 0600), 0); /* must not be waited for */
    assert_null(find_in(&folder, "upright"));
    assert_int_equal(remove(path), 0);
    assert_int_equal(mkdir(path, 0700), 0);
    assert_null(find_in(&folder, "upright"));
    assert_int_equal(rmdir(path), 0);
    close_folder(&folder);
}

/* A shop's own book of that name, in a folder that is looked into first, is the one that is meant. */
static void another_book_of_that_name_comes_first(void **state)
{
    (void)state;
    static const char own[] = "return book { id = 'grand', api = 1, title = 'Own', use 'upright' }\n";
    static const char *const names[] = {"grand", "shops/grand"};
    for (size_t i = 0; i < sizeof names / sizeof *names; i++) {
        rule_folder folder;
        open_folder(&folder);
        const char *folders[] = {folder.path, RULES_FOLDER};
        const hl_shelf shelf = {.folders = folders, .n_folders = 2};
        assert_non_null(hl__pressed_find("grand", &shelf));
        write_rule(&folder, names[i], own);
        assert_null(hl__pressed_find("grand", &shelf));
        hl_book *book = NULL;
        hl_err err;
        assert_int_equal(hl_book_open(&book, "grand", &shelf, &err), HL_OK);
        assert_string_equal(hl_book_title(book), "Own");
        hl_book_free(book);
        close_folder(&folder);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_pressed_book_is_the_book_that_lua_would_make),
        cmocka_unit_test(the_same_bytes_elsewhere_are_the_same_book),
        cmocka_unit_test(one_letter_changed_in_any_file_has_lua_run),
        cmocka_unit_test(a_changed_file_is_what_the_book_says),
        cmocka_unit_test(a_file_that_is_gone_or_no_file_is_told),
        cmocka_unit_test(another_book_of_that_name_comes_first),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
