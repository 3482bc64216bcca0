-- Key front load: the key level on its balance pin, weighed at the front. Limits catch a slip of the pen.
return step {
  id = "key_front_load", title = "Key front load", stage = "survey", unit = "g", scope = "every", need = "optional",
  plain = "How heavy the keys feel",
  ask = "Key alone, level on its balance pin. Weigh it at the usual point at the front.",
  why = "What the leads in the key already do.",
  target = range(-10, 45, 23),
  resolution = 0.1, gauge = 0.2, even = 3,
  low_todo = "Weigh again, key level and free.",
  high_todo = "Weigh again, key level and free. Leads that heavy are looked into before more is done.",
  source = "college-2004-leverage", unsourced = true,
}
