// Package quantity holds what every figure in a book is made of: an exact decimal
// as it was typed, its unit, and the words that say it back.
package quantity
