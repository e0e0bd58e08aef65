"""One entry at a time: numbers, answers, words, times, shutdowns."""
