-- The invented home-upright book: wider where nobody is harmed, and no weighing. All values are the book's own.
return tests "home_upright" {
  { "let_off", "A0", reads = 3.8, want = "pass", source = "invented: fails in the upright book" },
  { "let_off", "C8", reads = 3.5, want = "fail", why = "high", source = "invented" },
  { "checking", "D4", reads = 17, want = "pass", source = "invented: fails in the upright book" },
  { "checking", "D4", reads = 20, want = "fail", why = "high", fix = { "backcheck_wire", "toward the catcher" },
    source = "geometry" },
  { "lost_motion", "A4", reads = 0.75, want = "pass", source = "invented: fails in the upright book" },
  { "lost_motion", "A4", reads = 1.5, want = "fail", why = "high", source = "invented" },
  { "downweight", "A0", reads = nil, want = "not applicable", source = "book: skipped, with its reason" },
  { "blow", "A4", reads = nil, want = "missing", source = "book: what it does not change, it keeps" },
}
