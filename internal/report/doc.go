// Package report lays findings and figures on sheets: the leak and relief
// certificate and the design page.
//
// A page is a typed struct, Certificate or Design, whose PDF method writes it.
// The structs hold findings, numbers and what the figures need; they know
// nothing of studies. Nothing is cut silently: what does not fit goes on to
// another sheet, and a word that is too long for its field is printed in full
// under the findings. Signs that the faces lack are lettered by their number in
// Unicode, "[U+1F697]", so that no paper fails over a typed text.
//
// No function signs, and no page gives an overall grade.
package report
