package org.holdfast.desktop.view;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import javafx.application.Platform;
import javafx.event.Event;
import javafx.event.EventType;
import javafx.scene.Node;
import javafx.scene.Scene;
import javafx.scene.control.Button;
import javafx.scene.image.PixelReader;
import javafx.scene.input.KeyCode;
import javafx.scene.input.KeyEvent;
import javafx.scene.input.MouseButton;
import javafx.scene.input.MouseEvent;
import javafx.scene.input.ScrollEvent;
import javafx.stage.Stage;
import org.holdfast.desktop.WindowTest;
import org.holdfast.desktop.render.CutQueue;
import org.holdfast.desktop.render.PixelSize;
import org.holdfast.desktop.state.ExamPane;
import org.holdfast.desktop.state.HuWindow;
import org.holdfast.desktop.viewmodel.CutGeometry;
import org.holdfast.desktop.viewmodel.ExamLoad;
import org.holdfast.desktop.viewmodel.WholeExamViewModel;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.holdfast.volume.HuVolume;
import org.holdfast.volume.VolumeGrid;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;

@ExtendWith(WindowTest.class)
class WholeExamViewTest {

    private static final HuWindow WINDOW = new HuWindow(100, 400);
    private static final PatientPoint START = new PatientPoint(10, 10, 10);

    private final WholeExamViewModel exam = new WholeExamViewModel("12 mo", START, WINDOW);
    private final List<String> asked = new ArrayList<>();
    private CutQueue queue;
    private WholeExamView view;
    private Stage stage;

    @BeforeEach
    void open() throws Exception {
        WindowTest.fxRun(() -> {
            queue = new CutQueue(Platform::runLater, (failure, cell) -> {
                throw new AssertionError("cell " + cell, failure);
            });
            view = new WholeExamView(exam, queue, 0, () -> asked.add("stop"), () -> asked.add("again"));
            stage = new Stage();
            stage.setScene(new Scene(view, 800, 600));
            Theme.DARK.apply(stage.getScene());
            stage.show();
        });
        WindowTest.waitForPulse();
    }

    @AfterEach
    void shut() throws Exception {
        WindowTest.fxRun(() -> {
            view.close();
            stage.close();
            queue.close();
        });
    }

    /** 21 × 21 × 21 voxels of 1 mm, HU 100 everywhere: mid-grey. */
    private static HuVolume grey() {
        List<PatientPoint> origins = new ArrayList<>();
        short[][] hu = new short[21][21 * 21];
        for (int k = 0; k < 21; k++) {
            origins.add(new PatientPoint(0, 0, k));
            Arrays.fill(hu[k], (short) 100);
        }
        return HuVolume.ofHu(new VolumeGrid(21, 21, 1, 1, PatientVector.LEFT, PatientVector.POSTERIOR, origins), hu);
    }

    private void load() throws Exception {
        WindowTest.fxRun(() -> exam.setLoad(new ExamLoad.Loaded(grey())));
        WindowTest.waitForPulse();
    }

    private ExamPaneView pane(ExamPane pane) {
        return view.lookupAll(".exam-pane").stream()
                .map(ExamPaneView.class::cast)
                .filter(each -> each.pane() == pane)
                .findFirst()
                .orElseThrow();
    }

    private boolean isGreyInTheMiddle(ExamPane pane) {
        Node node = pane(pane);
        double x = node.getBoundsInParent().getCenterX();
        double y = node.getBoundsInParent().getCenterY();
        PixelReader pixels = stage.getScene().snapshot(null).getPixelReader();
        // By hand: 100 HU in the middle of the window is grey 128
        return pixels.getArgb((int) x, (int) y) == 0xFF808080;
    }

    private void mouse(ExamPane pane, EventType<MouseEvent> type, double x, double y, boolean shift, boolean alt)
            throws Exception {
        WindowTest.fxRun(() -> Event.fireEvent(
                pane(pane),
                new MouseEvent(
                        type,
                        x,
                        y,
                        x,
                        y,
                        MouseButton.PRIMARY,
                        1,
                        shift,
                        false,
                        alt,
                        false,
                        true,
                        false,
                        false,
                        true,
                        false,
                        false,
                        null)));
    }

    private void drag(ExamPane pane, boolean shift, boolean alt, double fromX, double fromY, double toX, double toY)
            throws Exception {
        mouse(pane, MouseEvent.MOUSE_PRESSED, fromX, fromY, shift, alt);
        mouse(pane, MouseEvent.MOUSE_DRAGGED, toX, toY, shift, alt);
        mouse(pane, MouseEvent.MOUSE_RELEASED, toX, toY, shift, alt);
    }

    private void wheel(ExamPane pane, double notches, boolean control) throws Exception {
        WindowTest.fxRun(() -> Event.fireEvent(
                pane(pane),
                new ScrollEvent(
                        ScrollEvent.SCROLL,
                        150,
                        100,
                        150,
                        100,
                        false,
                        control,
                        false,
                        false,
                        true,
                        false,
                        0,
                        40 * notches,
                        0,
                        40 * notches,
                        ScrollEvent.HorizontalTextScrollUnits.NONE,
                        0,
                        ScrollEvent.VerticalTextScrollUnits.NONE,
                        0,
                        0,
                        null)));
    }

    private void key(KeyCode code, boolean shift) throws Exception {
        WindowTest.fxRun(() -> Event.fireEvent(
                stage.getScene().getFocusOwner(),
                new KeyEvent(KeyEvent.KEY_PRESSED, "", "", code, shift, false, false, false)));
    }

    @Test
    void saysThatItReadsAndCanBeStopped() throws Exception {
        WindowTest.fxRun(() -> exam.setLoad(new ExamLoad.Loading(0.29, "slice 120 of 412")));
        WindowTest.waitForPulse();
        Button stop = (Button) view.lookup(".button");
        WindowTest.fxRun(stop::fire);

        assertEquals("Stop", stop.getText());
        assertEquals(List.of("stop"), asked);
        assertFalse(WindowTest.fx(() -> isGreyInTheMiddle(ExamPane.AXIAL)));
    }

    @Test
    void saysWhatFailedAndReadsAgain() throws Exception {
        WindowTest.fxRun(() -> exam.setLoad(new ExamLoad.Failed("exam-4: no such folder")));
        WindowTest.waitForPulse();
        Button again = (Button) view.lookup(".button");
        WindowTest.fxRun(again::fire);

        assertEquals("Read again", again.getText());
        assertEquals(List.of("again"), asked);
    }

    @Test
    void drawsAllFourPictures() throws Exception {
        load();
        for (ExamPane pane : ExamPane.values()) {
            WindowTest.waitUntil(pane + " is drawn", () -> isGreyInTheMiddle(pane));
        }
        assertTrue(pane(ExamPane.ORIGINAL).getAccessibleText().startsWith("Original slices, 12 mo, slice 11 of 21"));
    }

    @Test
    void sharesTheRoomOutEvenly() throws Exception {
        load();
        for (ExamPane pane : ExamPane.values()) {
            // By hand: half of 800 × 600 each
            assertEquals(400, pane(pane).getWidth(), 1e-9);
            assertEquals(300, pane(pane).getHeight(), 1e-9);
        }
    }

    @Test
    void wheelStepsAndZooms() throws Exception {
        load();
        wheel(ExamPane.AXIAL, -1, false);
        // By hand: towards the person is forward, to the head, by 1 mm
        assertEquals(11, exam.look().crossing().z(), 1e-9);
        wheel(ExamPane.AXIAL, 0.5, false);
        assertEquals(11, exam.look().crossing().z(), 1e-9);
        wheel(ExamPane.AXIAL, 0.5, false);
        assertEquals(10, exam.look().crossing().z(), 1e-9);

        wheel(ExamPane.AXIAL, 1, true);
        // By hand: one notch
        assertEquals(1.15, exam.look().frame(ExamPane.AXIAL).zoom(), 1e-9);
        assertEquals(10, exam.look().crossing().z(), 1e-9);
    }

    @Test
    void dragMovesCrossingPictureOrWindow() throws Exception {
        load();
        drag(ExamPane.CORONAL, false, false, 200, 150, 220, 150);
        assertTrue(exam.look().crossing().x() > 10);
        assertEquals(10, exam.look().crossing().y(), 1e-9);
        PatientPoint crossing = exam.look().crossing();

        drag(ExamPane.CORONAL, true, false, 100, 100, 130, 100);
        assertTrue(exam.look().frame(ExamPane.CORONAL).panMm().x() < 0);

        drag(ExamPane.CORONAL, false, true, 100, 100, 125, 100);
        // By hand: 25 of 250 pixels to the right, a tenth wider
        assertEquals(440, exam.look().window().widthHu(), 1e-9);
        assertEquals(100, exam.look().window().centreHu(), 1e-9);
        assertEquals(crossing, exam.look().crossing());
    }

    @Test
    void crossingLiesUnderThePointer() throws Exception {
        load();
        Node node = pane(ExamPane.CORONAL);
        mouse(
                ExamPane.CORONAL,
                MouseEvent.MOUSE_PRESSED,
                203,
                node.getBoundsInParent().getMinY() + 121,
                false,
                false);

        // By hand: the pane is 400 × 300 with a border of 2 pixels
        CutGeometry at =
                exam.geometry(ExamPane.CORONAL, new PixelSize(396, 296)).orElseThrow();
        assertEquals(201, at.crossingX(), 1e-6);
        assertEquals(119, at.crossingY(), 1e-6);
    }

    @Test
    void keysActOnThePictureWithTheFocus() throws Exception {
        load();
        WindowTest.fxRun(() -> pane(ExamPane.SAGITTAL).requestFocus());
        key(KeyCode.PERIOD, false);
        // By hand: forward is to the patient's right
        assertEquals(9, exam.look().crossing().x(), 1e-9);
        key(KeyCode.COMMA, true);
        assertEquals(14, exam.look().crossing().x(), 1e-9);
        key(KeyCode.PLUS, false);
        assertEquals(1.25, exam.look().frame(ExamPane.SAGITTAL).zoom(), 1e-9);
        key(KeyCode.SPACE, false);
        assertEquals(1, exam.look().frame(ExamPane.SAGITTAL).zoom(), 1e-9);
        assertEquals(1, exam.look().frame(ExamPane.AXIAL).zoom(), 1e-9);
    }

    @Test
    void showsNothingOnceTheExamIsGone() throws Exception {
        load();
        WindowTest.waitUntil("axial is drawn", () -> isGreyInTheMiddle(ExamPane.AXIAL));
        WindowTest.fxRun(() -> exam.setLoad(new ExamLoad.Failed("released")));
        WindowTest.waitForPulse();

        assertFalse(WindowTest.fx(() -> isGreyInTheMiddle(ExamPane.AXIAL)));
    }
}
