package org.holdfast.desktop.viewmodel;

import java.util.ArrayList;
import java.util.List;

/**
 * A join of two exams that passes over others is interrupted at each of them, so that it does not seem to say anything of
 * these.
 */
public final class JoinPieces {

    private JoinPieces() {}

    /**
     * A straight piece.
     *
     * @param x1 left end
     * @param y1 height there
     * @param x2 right end
     * @param y2 height there
     */
    public record Piece(double x1, double y1, double x2, double y2) {}

    /**
     * The pieces of a straight join, from left to right.
     *
     * @param whole the join without interruptions, its left end first
     * @param between places of the exams that it passes over, from left to right
     * @param gap room that is left free on both sides of each
     */
    public static List<Piece> of(Piece whole, List<Double> between, double gap) {
        List<Piece> pieces = new ArrayList<>();
        double x = whole.x1();
        for (double exam : between) {
            add(pieces, whole, x, exam - gap);
            x = Math.max(x, exam + gap);
        }
        add(pieces, whole, x, whole.x2());
        return List.copyOf(pieces);
    }

    private static void add(List<Piece> pieces, Piece whole, double from, double to) {
        if (to > from) {
            pieces.add(new Piece(from, height(whole, from), to, height(whole, to)));
        }
    }

    private static double height(Piece whole, double x) {
        return whole.y1() + (whole.y2() - whole.y1()) * (x - whole.x1()) / (whole.x2() - whole.x1());
    }
}
