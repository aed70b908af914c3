package org.holdfast.desktop.viewmodel;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Optional;
import org.holdfast.desktop.state.ImageMark;
import org.holdfast.desktop.state.ImageMark.AngleMark;
import org.holdfast.desktop.state.ImageMark.LengthMark;
import org.holdfast.desktop.state.ImageMark.RegionMark;
import org.holdfast.desktop.state.MarkTool;
import org.holdfast.geometry.PatientPoint;
import org.junit.jupiter.api.Test;

class MarkDrawingTest {

    private static final PatientPoint A = Marks.at(0, 21);
    private static final PatientPoint B = Marks.at(3, 21);
    private static final PatientPoint C = Marks.at(3, 25);
    private static final PatientPoint D = Marks.at(0, 25);

    private static MarkDrawing begun(MarkTool tool) {
        return new MarkDrawing(tool, Marks.place(Marks.AXIAL), A);
    }

    @Test
    void drawsALengthFromPressToRelease() {
        MarkDrawing drawing = begun(MarkTool.LENGTH);
        drawing.follow(B);
        assertEquals(List.of(A, B), drawing.preview().orElseThrow().points());
        assertEquals(Optional.empty(), drawing.finished("id"));
        drawing.set(C);
        assertEquals(Optional.of(new LengthMark("id", Marks.place(Marks.AXIAL), A, C)), drawing.finished("id"));
    }

    @Test
    void showsTheFirstArmOfAnAngleAsALine() {
        MarkDrawing drawing = begun(MarkTool.ANGLE);
        drawing.follow(B);
        assertTrue(drawing.preview().orElseThrow() instanceof LengthMark);
        drawing.set(B);
        assertFalse(drawing.isComplete());
        drawing.follow(C);
        assertTrue(drawing.preview().orElseThrow() instanceof AngleMark);
        drawing.set(D);
        assertEquals(Optional.of(new AngleMark("id", Marks.place(Marks.AXIAL), A, B, D)), drawing.finished("id"));
    }

    @Test
    void closesAPolygonWhenThePersonSaysSo() {
        MarkDrawing drawing = begun(MarkTool.POLYGON);
        drawing.set(B);
        assertFalse(drawing.canBeClosed());
        assertEquals(Optional.empty(), drawing.finished("id"));
        drawing.set(C);
        drawing.follow(D);
        assertFalse(drawing.isComplete());
        assertTrue(drawing.canBeClosed());
        assertEquals(4, drawing.preview().orElseThrow().points().size());
        ImageMark mark = drawing.finished("id").orElseThrow();
        assertEquals(List.of(A, B, C), mark.points());
    }

    @Test
    void drawsBothKindsOfBox() {
        for (MarkTool tool : List.of(MarkTool.ELLIPSE, MarkTool.RECTANGLE)) {
            MarkDrawing drawing = begun(tool);
            drawing.set(C);
            RegionMark region = (RegionMark) drawing.finished("id").orElseThrow();
            assertEquals(tool.name(), region.kind().name());
            assertEquals(List.of(A, C), region.points());
        }
    }
}
