-- String mating: the hammer meets all strings of its note at one moment.
return step {
  id = "string_mating", title = "Strings mated", stage = "align", kind = "judged", scope = "every",
  plain = "How the hammers travel and meet their strings",
  ask = "Hold the hammer lightly against its strings and pluck each one. All are blocked alike.",
  why = "An open string sounds late and cloudy, and soft playing turns uneven.",
  caution = "Strings are under load and can break. Keep your face away.",
  faults = {
    { "open", means = "one string still rings", fix = { { "string_level", "toward the hammer" } },
      todo = "Level the strings first. Only then fit the hammer face, with as little filing as it takes." },
  },
  source = "list-string-level", unsourced = true,
}
