/* check_schema.c - checks JSON against a JSON Schema, as far as the schemas of docs/schema go.
 *
 * check_schema SCHEMA < JSON                one value
 * check_schema --array SCHEMA < JSON        an array, each item by the schema
 * check_schema --lines SCHEMA < JSON        a value a line
 *
 * It is stricter than the standard in two ways: a key that the schema does not list is wrong, so that none
 * goes without a description; and a keyword that is not looked at here is wrong, so that no schema says what
 * nobody checks. */
#include <jansson.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define PATH_ROOM 512

typedef struct check {
    json_t *root;
    int n_wrong;
} check;

static void complain(check *of, const char *path, const char *what, const char *which)
{
    if (of->n_wrong++ < 10)
        fprintf(stderr, "%s: %s %s\n", path[0] ? path : "/", what, which);
}

static bool is_type(const json_t *value, const char *type)
{
    if (strcmp(type, "integer") == 0)
        return json_is_integer(value);
    if (strcmp(type, "number") == 0)
        return json_is_number(value);
    if (strcmp(type, "string") == 0)
        return json_is_string(value);
    if (strcmp(type, "boolean") == 0)
        return json_is_boolean(value);
    if (strcmp(type, "object") == 0)
        return json_is_object(value);
    if (strcmp(type, "array") == 0)
        return json_is_array(value);
    return strcmp(type, "null") == 0 && json_is_null(value);
}

static bool has_type(const json_t *value, const json_t *types)
{
    size_t i;
    json_t *one;
    if (json_is_string(types))
        return is_type(value, json_string_value(types));
    json_array_foreach(types, i, one) if (is_type(value, json_string_value(one))) return true;
    return false;
}

static void look(check *of, const char *path, json_t *value, json_t *schema);

static void look_below(check *of, const char *path, const char *key, json_t *value, json_t *schema)
{
    char below[PATH_ROOM];
    snprintf(below, sizeof below, "%s/%s", path, key);
    look(of, below, value, schema);
}

static void look_at_object(check *of, const char *path, json_t *value, json_t *schema)
{
    json_t *properties = json_object_get(schema, "properties"),
           *required = json_object_get(schema, "required");
    json_t *others = json_object_get(schema, "additionalProperties"), *member, *name;
    const char *key;
    size_t i;
    json_array_foreach(required, i, name) if (!json_object_get(value, json_string_value(name)))
        complain(of, path, "lacks", json_string_value(name));
    json_object_foreach(value, key, member)
    {
        json_t *by = json_object_get(properties, key);
        if (by || others)
            look_below(of, path, key, member, by ? by : others);
        else
            complain(of, path, "has a key that the schema does not list:", key);
    }
}

static json_t *find_reference(check *of, const char *path, json_t *schema)
{
    const char *to = json_string_value(json_object_get(schema, "$ref"));
    if (!to)
        return schema;
    json_t *found =
        strncmp(to, "#/$defs/", 8) == 0 ? json_object_get(json_object_get(of->root, "$defs"), to + 8) : NULL;
    if (!found)
        complain(of, path, "the schema refers to nothing:", to);
    return found;
}

static void look_at_keywords(check *of, const char *path, json_t *schema)
{
    static const char *const known[] = {"$schema",
                                        "title",
                                        "description",
                                        "$defs",
                                        "$ref",
                                        "type",
                                        "const",
                                        "enum",
                                        "minimum",
                                        "required",
                                        "items",
                                        "properties",
                                        "additionalProperties"};
    const char *key;
    json_t *value;
    json_object_foreach(schema, key, value)
    {
        bool found = false;
        for (size_t i = 0; i < sizeof known / sizeof *known; i++)
            found = found || strcmp(known[i], key) == 0;
        if (!found)
            complain(of, path, "the schema has a keyword that is not checked:", key);
    }
}

static void look(check *of, const char *path, json_t *value, json_t *schema)
{
    look_at_keywords(of, path, schema);
    schema = find_reference(of, path, schema);
    if (!schema)
        return;
    look_at_keywords(of, path, schema);
    json_t *types = json_object_get(schema, "type"), *only = json_object_get(schema, "const");
    json_t *words = json_object_get(schema, "enum"), *least = json_object_get(schema, "minimum"), *item;
    size_t i;
    if (types && !has_type(value, types))
        complain(of, path, "is of another type than",
                 json_is_string(types) ? json_string_value(types) : "any listed");
    if (only && !json_equal(value, only))
        complain(of, path, "is not the constant", "");
    if (words) {
        bool found = false;
        json_array_foreach(words, i, item) found = found || json_equal(value, item);
        if (!found)
            complain(of, path,
                     "is none of the words:", json_is_string(value) ? json_string_value(value) : "no text");
    }
    if (least && json_is_number(value) && json_number_value(value) < json_number_value(least))
        complain(of, path, "is below the minimum", "");
    if (json_is_object(value))
        look_at_object(of, path, value, schema);
    json_t *items = json_object_get(schema, "items");
    if (!items && json_is_array(value))
        complain(of, path, "the schema does not say what the items are", "");
    if (items)
        json_array_foreach(value, i, item)
        {
            char key[24];
            snprintf(key, sizeof key, "%zu", i);
            look_below(of, path, key, item, items);
        }
}

static int read_lines(check *of)
{
    static char line[1 << 22];
    int n = 0;
    for (; fgets(line, sizeof line, stdin); n++) {
        json_error_t why;
        json_t *value = json_loads(line, JSON_REJECT_DUPLICATES, &why);
        if (value)
            look(of, "", value, of->root);
        else
            complain(of, "", "a line is no JSON:", why.text);
        json_decref(value);
    }
    return n;
}

static int read_value(check *of, bool array)
{
    json_error_t why;
    json_t *value = json_loadf(stdin, JSON_REJECT_DUPLICATES, &why), *item;
    size_t i;
    int n = 1;
    if (!value) {
        complain(of, "", "it is no JSON:", why.text);
    } else if (!array) {
        look(of, "", value, of->root);
    } else if (!json_is_array(value)) {
        complain(of, "", "it is no array", "");
    } else {
        json_array_foreach(value, i, item) look(of, "", item, of->root);
        n = (int)json_array_size(value);
    }
    json_decref(value);
    return n;
}

int main(int argc, char **argv)
{
    json_error_t why;
    const char *how = argc == 3 ? argv[1] : "";
    if (argc < 2 || argc > 3)
        return fprintf(stderr, "usage: check_schema [--array|--lines] SCHEMA\n"), 2;
    check of = {.root = json_load_file(argv[argc - 1], JSON_REJECT_DUPLICATES, &why)};
    if (!of.root)
        return fprintf(stderr, "%s: %s\n", argv[argc - 1], why.text), 2;
    const int n =
        strcmp(how, "--lines") == 0 ? read_lines(&of) : read_value(&of, strcmp(how, "--array") == 0);
    json_decref(of.root);
    if (n == 0)
        return fprintf(stderr, "there was nothing to check\n"), 1;
    return of.n_wrong > 0;
}
