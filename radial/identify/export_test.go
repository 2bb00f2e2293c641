package identify

// Chance is a share in words, for the tests of its edges.
var Chance = chance
