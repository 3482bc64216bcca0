-- Jack height: how far the top of the jack lies below the top of the repetition lever.
return step {
  id = "jack_height", title = "Jack below lever top", stage = "set", unit = "mm", scope = "every",
  plain = "How a hammer lets go of its key, and is caught after it has struck",
  ask = "Draw a finger over lever and jack: the jack is just felt below. Trip it and let go: " ..
    "it comes home by itself.",
  why = "A proud jack can't get back under the knuckle. A deep one gives lost motion.",
  target = range(0.1, 0.3, 0.2),
  resolution = 0.1, gauge = 0.1,
  fix = { "lever_height_button" },
  masks = { "blow" },
  gauge_name = "0.2 mm paper",
  source = "page-grand-parts: part X; maker-regulation; common-practice: the band",
}
