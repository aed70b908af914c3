package org.holdfast.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.util.List;
import org.junit.jupiter.api.Test;

class TextTableTest {

    @Test
    void columnsAreAsWideAsTheirWidestCell() {
        TextTable table = new TextTable(List.of("exam", "day"));
        table.add(List.of("surgery", "3"));
        table.add(List.of("6 mo", "183"));
        assertEquals(List.of("exam     day", "-------  ---", "surgery  3", "6 mo     183"), table.lines());
    }

    @Test
    void aLineBreakMakesTheHeaderTwoLinesHigh() {
        TextTable table = new TextTable(List.of("exam", "gap\nmm"));
        table.add(List.of("a", "1"));
        assertEquals(List.of("      gap", "exam  mm", "----  ---", "a     1"), table.lines());
    }

    @Test
    void aTableWithoutRowsIsItsHeader() {
        assertEquals(List.of("a  b", "-  -"), new TextTable(List.of("a", "b")).lines());
    }

    @Test
    void noLineEndsInBlanks() {
        TextTable table = new TextTable(List.of("exam", "remark"));
        table.add(List.of("a", ""));
        assertEquals(List.of("exam  remark", "----  ------", "a"), table.lines());
    }

    @Test
    void refusesARowOfAnotherLength() {
        TextTable table = new TextTable(List.of("a", "b"));
        assertThrows(IllegalArgumentException.class, () -> table.add(List.of("1")));
    }
}
