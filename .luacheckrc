-- Rule files may use our words and a few pure functions, nothing else.
local words = {
  "about", "acknowledge", "adjuster", "at_least", "at_most", "book", "by_choice", "by_colour", "change", "choice",
  "choose", "diagnosis", "fact", "float", "graded", "range", "renamed", "skip", "source", "stage", "step", "tests",
  "use", "zones",
}
local pure = {
  "assert", "error", "ipairs", "pairs", "select", "tonumber", "tostring", "type",
  math = { fields = {
    "abs", "ceil", "cos", "exp", "floor", "fmod", "huge", "log", "max", "min", "pi", "sin", "sqrt", "tan",
    "tointeger", "type",
  } },
  string = { fields = { "format", "len", "lower", "sub", "upper" } },
  table = { fields = { "concat", "insert", "remove", "unpack" } },
}
for _, word in ipairs(words) do
  pure[#pure + 1] = word
end
stds.hammerline = { read_globals = pure }
std = "hammerline"
max_line_length = 120
max_string_line_length = 300
-- The stubs for editors define the words instead of using them.
files["rules/meta"] = { std = "lua54", ignore = { "111", "112", "113", "131", "211", "212" }, max_line_length = false }
