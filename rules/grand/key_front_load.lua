-- Key front load: the key level on its balance pin, weighed at the front. Limits catch a slip of the pen.
return step {
  id = "key_front_load", title = "Key front load", stage = "weigh", unit = "g", scope = "every", need = "optional",
  plain = "How heavy the keys feel",
  ask = "Key alone, level on its balance pin. Weigh it at the usual point at the front.",
  why = "What the leads in the key already do.",
  target = range(-10, 45, 25),
  resolution = 0.1, gauge = 0.2,
  source = "college-2004-leverage", unsourced = true,
}
