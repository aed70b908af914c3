package org.holdfast.desktop.viewmodel;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import org.holdfast.desktop.viewmodel.JoinPieces.Piece;
import org.junit.jupiter.api.Test;

class JoinPiecesTest {

    private static final Piece WHOLE = new Piece(0, 100, 200, 0);

    @Test
    void isWholeBetweenNeighbours() {
        assertEquals(List.of(WHOLE), JoinPieces.of(WHOLE, List.of(), 8));
    }

    @Test
    void leavesRoomAtAnExamThatItPassesOver() {
        // By hand: it falls by 1 every 2; 8 on each side of 60 are left free.
        assertEquals(
                List.of(new Piece(0, 100, 52, 74), new Piece(68, 66, 200, 0)), JoinPieces.of(WHOLE, List.of(60.0), 8));
    }

    @Test
    void leavesOutPiecesWithoutLength() {
        // By hand: exams at 4 and 14 leave nothing before 22.
        assertEquals(List.of(new Piece(22, 89, 200, 0)), JoinPieces.of(WHOLE, List.of(4.0, 14.0), 8));
    }
}
