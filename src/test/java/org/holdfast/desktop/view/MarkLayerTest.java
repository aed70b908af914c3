package org.holdfast.desktop.view;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertSame;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import javafx.event.Event;
import javafx.event.EventType;
import javafx.scene.Node;
import javafx.scene.Scene;
import javafx.scene.input.KeyCode;
import javafx.scene.input.KeyEvent;
import javafx.scene.input.MouseButton;
import javafx.scene.input.MouseEvent;
import javafx.scene.layout.Pane;
import org.holdfast.construct.CutAxes;
import org.holdfast.desktop.WindowTest;
import org.holdfast.desktop.state.Bindings;
import org.holdfast.desktop.state.ImageMark;
import org.holdfast.desktop.state.ImageMark.AngleMark;
import org.holdfast.desktop.state.ImageMark.LengthMark;
import org.holdfast.desktop.state.ImageMark.RegionMark;
import org.holdfast.desktop.state.MarkPlace;
import org.holdfast.desktop.state.MarkTool;
import org.holdfast.desktop.viewmodel.FlatPicture;
import org.holdfast.desktop.viewmodel.MarkReading;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.holdfast.volume.CutPlane;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;

/**
 * Marks on a picture of 200 by 150 logical pixels of 0.5 mm, that stands 40 pixels right of and 30 below the corner of the
 * window. By hand: pixel (x, y) shows the place (0.5·x − 0.25, 0.5·y − 0.25, z).
 */
@ExtendWith(WindowTest.class)
final class MarkLayerTest {

    private static final double LEFT = 40;
    private static final double TOP = 30;
    private static final double ROUNDING_MM = 1e-9;

    /** Keeps marks in a list. */
    private static final class Sheet implements MarkSheet {
        private final List<ImageMark> marks = new ArrayList<>();
        private final List<Object> gestures = new ArrayList<>();
        private Runnable changed = () -> {};

        @Override
        public List<ImageMark> on(FlatPicture picture) {
            return marks.stream().filter(mark -> shows(picture, mark.place())).toList();
        }

        @Override
        public MarkReading read(ImageMark mark) {
            return MarkReading.of(mark, Optional.empty());
        }

        @Override
        public MarkPlace place(FlatPicture picture) {
            return new MarkPlace("part", 0, picture.place(0, 0), picture.axes(), Optional.empty());
        }

        @Override
        public boolean shows(FlatPicture picture, MarkPlace place) {
            return place.isShownBy(0, picture.place(0, 0), picture.axes(), 0.25);
        }

        @Override
        public void add(ImageMark mark) {
            marks.add(mark);
            changed.run();
        }

        @Override
        public void change(ImageMark next, Object gesture) {
            gestures.add(gesture);
            marks.replaceAll(mark -> mark.id().equals(next.id()) ? next : mark);
            changed.run();
        }

        @Override
        public void remove(ImageMark mark) {
            marks.removeIf(other -> other.id().equals(mark.id()));
            changed.run();
        }
    }

    private final Sheet sheet = new Sheet();
    private MarkTools tools;
    private MarkLayer layer;

    /** Layer and tools are made on the thread of the window. */
    private void begin(Optional<MarkTool> tool) {
        tools = new MarkTools(Bindings.usual());
        layer = new MarkLayer(sheet, tools);
        Pane window = new Pane(layer, tools);
        new Scene(window, 400, 300);
        layer.resizeRelocate(LEFT, TOP, 200, 150);
        sheet.changed = () -> layer.show(picture(100));
        layer.show(picture(100));
        tools.take(tool);
    }

    private static FlatPicture picture(double height) {
        PatientPoint corner = new PatientPoint(0, 0, height);
        return new FlatPicture(
                new CutPlane(corner, PatientVector.LEFT.times(0.5), PatientVector.POSTERIOR.times(0.5), 200, 150), 1);
    }

    private static PatientPoint at(double x, double y) {
        return new PatientPoint(0.5 * x - 0.25, 0.5 * y - 0.25, 100);
    }

    private void mouse(Node target, EventType<MouseEvent> type, double x, double y, int clicks) {
        boolean down = type != MouseEvent.MOUSE_RELEASED && type != MouseEvent.MOUSE_MOVED;
        Event.fireEvent(
                target,
                new MouseEvent(
                        type,
                        LEFT + x,
                        TOP + y,
                        LEFT + x,
                        TOP + y,
                        MouseButton.PRIMARY,
                        clicks,
                        false,
                        false,
                        false,
                        false,
                        down,
                        false,
                        false,
                        false,
                        false,
                        true,
                        null));
    }

    private void drag(Node target, double x1, double y1, double x2, double y2) {
        mouse(target, MouseEvent.MOUSE_PRESSED, x1, y1, 1);
        mouse(target, MouseEvent.MOUSE_DRAGGED, (x1 + x2) / 2, (y1 + y2) / 2, 1);
        mouse(target, MouseEvent.MOUSE_DRAGGED, x2, y2, 1);
        mouse(target, MouseEvent.MOUSE_RELEASED, x2, y2, 1);
    }

    private void click(double x, double y, int clicks) {
        mouse(layer, MouseEvent.MOUSE_MOVED, x, y, 0);
        mouse(layer, MouseEvent.MOUSE_PRESSED, x, y, clicks);
        mouse(layer, MouseEvent.MOUSE_RELEASED, x, y, clicks);
    }

    private List<MarkHandle> handles() {
        return layer.lookupAll(".mark-handle").stream()
                .map(MarkHandle.class::cast)
                .toList();
    }

    private static void assertAt(PatientPoint wished, PatientPoint got) {
        assertEquals(0, wished.distanceTo(got), ROUNDING_MM, () -> "wished " + wished + ", got " + got);
    }

    @Test
    void aDragDrawsALengthAndPutsTheToolAway() throws Exception {
        WindowTest.fxRun(() -> {
            begin(Optional.of(MarkTool.LENGTH));
            drag(layer, 20, 30, 80, 110);
            LengthMark mark = (LengthMark) sheet.marks.get(0);
            assertAt(at(20, 30), mark.from());
            assertAt(at(80, 110), mark.to());
            assertEquals(Optional.empty(), tools.inHandProperty().get());
            assertEquals(2, handles().size());
        });
    }

    @Test
    void aPressWithoutAWayDrawsNothingAndKeepsTheTool() throws Exception {
        WindowTest.fxRun(() -> {
            begin(Optional.of(MarkTool.ELLIPSE));
            drag(layer, 20, 30, 21, 31);
            assertEquals(List.of(), sheet.marks);
            assertEquals(Optional.of(MarkTool.ELLIPSE), tools.inHandProperty().get());
        });
    }

    @Test
    void threeClicksDrawAnAngle() throws Exception {
        WindowTest.fxRun(() -> {
            begin(Optional.of(MarkTool.ANGLE));
            click(100, 40, 1);
            click(60, 40, 1);
            click(60, 90, 1);
            AngleMark mark = (AngleMark) sheet.marks.get(0);
            assertAt(at(100, 40), mark.first());
            assertAt(at(60, 40), mark.vertex());
            assertAt(at(60, 90), mark.second());
        });
    }

    @Test
    void aDoubleClickClosesAPolygonWithoutACornerOfItsOwn() throws Exception {
        WindowTest.fxRun(() -> {
            begin(Optional.of(MarkTool.POLYGON));
            click(20, 20, 1);
            click(80, 20, 1);
            click(80, 70, 1);
            assertEquals(List.of(), sheet.marks);
            click(80, 70, 2);
            RegionMark mark = (RegionMark) sheet.marks.get(0);
            assertEquals(3, mark.points().size());
            assertAt(at(80, 70), mark.points().get(2));
        });
    }

    @Test
    void enterClosesAPolygonOnceItHasAnInside() throws Exception {
        WindowTest.fxRun(() -> {
            begin(Optional.of(MarkTool.POLYGON));
            click(20, 20, 1);
            click(80, 20, 1);
            assertFalse(layer.closePolygon());
            click(80, 70, 1);
            assertTrue(layer.closePolygon());
            assertEquals(1, sheet.marks.size());
        });
    }

    @Test
    void aStepToAnotherPlaneGivesUpWhatIsBeingDrawn() throws Exception {
        WindowTest.fxRun(() -> {
            begin(Optional.of(MarkTool.ANGLE));
            click(100, 40, 1);
            click(60, 40, 1);
            layer.show(picture(100.5));
            click(60, 90, 1);
            assertEquals(List.of(), sheet.marks);
        });
    }

    @Test
    void puttingTheToolAwayGivesUpWhatIsBeingDrawn() throws Exception {
        WindowTest.fxRun(() -> {
            begin(Optional.of(MarkTool.POLYGON));
            click(20, 20, 1);
            click(80, 20, 1);
            assertEquals(1, layer.getChildren().size());
            tools.take(Optional.empty());
            assertEquals(0, layer.getChildren().size());
        });
    }

    @Test
    void aHandleFollowsThePointerAndStaysTheSameNode() throws Exception {
        WindowTest.fxRun(() -> {
            begin(Optional.empty());
            sheet.add(new LengthMark("mark", sheet.place(picture(100)), at(20, 30), at(80, 110)));
            MarkHandle handle = handles().get(1);
            drag(handle, 80, 110, 120, 60);
            assertAt(at(120, 60), sheet.marks.get(0).points().get(1));
            assertAt(at(20, 30), sheet.marks.get(0).points().get(0));
            assertSame(handle, handles().get(1));
            assertEquals(1, sheet.gestures.stream().distinct().count(), "one drag is one act");
        });
    }

    @Test
    void aHandleMovedOnAPlaneBesideKeepsTheMarkFlat() throws Exception {
        WindowTest.fxRun(() -> {
            begin(Optional.empty());
            sheet.add(new LengthMark("mark", sheet.place(picture(100)), at(20, 30), at(80, 110)));
            sheet.changed = () -> layer.show(picture(100.2));
            layer.show(picture(100.2));
            drag(handles().get(0), 20, 30, 50, 30);
            assertAt(at(50, 30), sheet.marks.get(0).points().get(0));
        });
    }

    @Test
    void arrowKeysMoveAHandleByOnePixelAndDeleteRemovesTheMark() throws Exception {
        WindowTest.fxRun(() -> {
            begin(Optional.empty());
            sheet.add(new LengthMark("mark", sheet.place(picture(100)), at(20, 30), at(80, 110)));
            MarkHandle handle = handles().get(0);
            handle.requestFocus();
            assertSame(handle, handle.getScene().getFocusOwner());
            key(handle, KeyCode.RIGHT);
            key(handle, KeyCode.RIGHT);
            key(handle, KeyCode.UP);
            assertAt(at(22, 29), sheet.marks.get(0).points().get(0));
            assertEquals(1, sheet.gestures.stream().distinct().count(), "key presses in a row are one act");
            key(handle, KeyCode.DELETE);
            assertEquals(List.of(), sheet.marks);
            assertEquals(0, layer.getChildren().size());
        });
    }

    @Test
    void showsOnlyMarksOfItsPlane() throws Exception {
        WindowTest.fxRun(() -> {
            begin(Optional.empty());
            sheet.add(new LengthMark("here", sheet.place(picture(100)), at(20, 30), at(80, 110)));
            sheet.add(new LengthMark("elsewhere", sheet.place(picture(103)), at(20, 30), at(80, 110)));
            assertEquals(1, layer.getChildren().size());
            layer.show(picture(103));
            assertEquals(1, layer.getChildren().size());
            layer.show(picture(101));
            assertEquals(0, layer.getChildren().size());
        });
    }

    @Test
    void aPictureSeenFromBehindShowsTheMarkMirrored() throws Exception {
        WindowTest.fxRun(() -> {
            begin(Optional.empty());
            sheet.add(new LengthMark("mark", sheet.place(picture(100)), at(20, 30), at(80, 110)));
            PatientPoint corner = new PatientPoint(99.5, 0, 100);
            CutPlane behind =
                    new CutPlane(corner, PatientVector.LEFT.times(-0.5), PatientVector.POSTERIOR.times(0.5), 200, 150);
            layer.show(new FlatPicture(behind, 1));
            // By hand: 200 pixels wide, so x becomes 200 − x.
            assertEquals(180, handles().get(0).getTranslateX(), ROUNDING_MM);
            assertEquals(30, handles().get(0).getTranslateY(), ROUNDING_MM);
            assertEquals(
                    new CutAxes(PatientVector.LEFT.times(-1), PatientVector.POSTERIOR),
                    new FlatPicture(behind, 1).axes());
        });
    }

    private static void key(Node target, KeyCode code) {
        Event.fireEvent(target, new KeyEvent(KeyEvent.KEY_PRESSED, "", "", code, false, false, false, false));
    }
}
