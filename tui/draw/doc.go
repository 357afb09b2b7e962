// Package draw turns values into pictures made of text: large digits, a
// feature in section, a bar between limits, and lines cut and padded to a
// window. It holds no state, reads no clock and knows no screen.
//
// Every drawing that is given a width and a height returns exactly that many
// lines, none of them wider than the width. Widths are in cells of the
// terminal, heights in rows.
//
// Most drawings come in two kinds. The usual kind uses block and line signs,
// which terminals of East Asian locales draw two cells wide; the ASCII kind
// uses only signs that are one cell wide everywhere. Ask [WantsASCII] once and
// hand the answer to all.
//
// Colour is never the only carrier of a meaning: with the zero [Palette], or
// one made for a terminal without colour, everything can still be read from
// shape and words.
//
// Caveats: text from outside must go through [Clean] before it goes through
// anything else here; a cell count is only as good as the terminal's own width
// table.
package draw
