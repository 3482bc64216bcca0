return book {
  id = "parts", api = 1, title = "Parts",
  adjuster { "key_lead", title = "lead", more = "heavier", less = "lighter", unit = "g",
    moves = { key_front_weight = 2 }, why = "before the table of names is known" },
}
