-- Lead already in each key, before more is put in. Along the keyboard it makes a smooth line on a sound action.
return step {
  id = "lead_in_key", title = "Lead in the key", stage = "survey", unit = "g", scope = "every", need = "optional",
  plain = "How heavy the keys feel",
  ask = "Count the leads in the key by size and add up their grams.",
  why = "A key that carries far more than its neighbours hides a fault of weight or leverage.",
  target = range(0, 60, 25),
  resolution = 1, gauge = 2, even = 8,
  low_todo = "Count again.",
  high_todo = "Count again. So much lead makes the key slow: look at hammer weight and leverage first.",
  caution = "Old lead may be powdery: no dust, wash hands.",
  unsourced = true, source = "common-practice",
}
