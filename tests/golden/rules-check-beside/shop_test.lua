return tests "shop" {
  { "drop", "C4", reads = 1.0, want = "pass", source = "book" },
  { "drop", "C4", reads = 1.6, want = "pass", source = "wrong on purpose: this one is told" },
}
