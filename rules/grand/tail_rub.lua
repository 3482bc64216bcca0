-- Tail rub: the rising tail passes its check without touching.
return step {
  id = "tail_rub", title = "Tail clear of its check", stage = "refine", kind = "judged", scope = "every",
  need = "optional",
  plain = "How a hammer lets go of its key, and is caught after it has struck",
  ask = "Rest a finger on the hammer so that it rises late, and press the key. Feel for a scrape on the way up.",
  why = "A tail that rubs loses power, wears flat, and is heard as a scrape in soft playing.",
  faults = {
    { "rubs", means = "tail scrapes the check on the way up", fix = { { "backcheck", "away from the tail" } },
      todo = "If it is then caught too low, lower the check or shorten the tail." },
  },
  unsourced = true, source = "articles-checking",
}
