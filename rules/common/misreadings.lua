-- Readings that can't both be true, on any action. Told before what may be wrong with the piano.
return book {
  id = "misreadings", api = 1, title = "Misreadings",

  diagnosis { "weights_crossed", title = "Upweight above downweight: one of them was misread",
    when = "upweight > downweight",
    causes = {
      { "the two were typed the wrong way round", test = "Exchange them: friction lands in its range.",
        todo = "Type them the right way round." },
      { "one was misread", test = "Weigh the note again both ways, pedal down: down is always the heavier.",
        todo = "Type both again before anything is eased or leaded." },
    },
    source = "arithmetic: friction, half of downweight less upweight, is never below zero" },
}
