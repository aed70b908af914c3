package org.holdfast.desktop.view;

import java.util.List;

/** From which card to which the arrows lead: within a line to the left and right, up and down by lines through all exams. */
final class CardPath {

    private CardPath() {}

    /** The card that a step leads to; the same where there is none. */
    static SeriesCard next(List<IntakeExamRow> rows, SeriesCard from, int right, int down) {
        int exam = 0;
        while (!rows.get(exam).cards().contains(from)) {
            exam++;
        }
        List<SeriesCard> cards = rows.get(exam).cards();
        int columns = rows.get(exam).columns();
        int at = cards.indexOf(from);
        if (right != 0) {
            int to = at + right;
            return to < 0 || to >= cards.size() ? from : cards.get(to);
        }
        int column = at % columns;
        int to = at + down * columns;
        if (to >= 0 && to < cards.size()) {
            return cards.get(to);
        }
        boolean shorterLineBelow = down > 0 && at / columns < (cards.size() - 1) / columns;
        if (shorterLineBelow) {
            return cards.get(cards.size() - 1);
        }
        int other = exam + down;
        if (down == 0 || other < 0 || other >= rows.size()) {
            return from;
        }
        return entered(rows.get(other), column, down);
    }

    /** The card in a column of the first line, or of the last one if it is entered from below. */
    private static SeriesCard entered(IntakeExamRow row, int column, int down) {
        List<SeriesCard> cards = row.cards();
        int line = down > 0 ? 0 : (cards.size() - 1) / row.columns();
        return cards.get(Math.min(cards.size() - 1, line * row.columns() + column));
    }
}
