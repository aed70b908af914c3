package org.holdfast.desktop;

import static org.holdfast.desktop.WindowTest.fx;
import static org.holdfast.desktop.WindowTest.fxRun;
import static org.holdfast.desktop.WindowTest.waitUntil;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import javafx.application.Platform;
import javafx.event.Event;
import javafx.scene.Node;
import javafx.scene.Parent;
import javafx.scene.control.ComboBox;
import javafx.scene.control.Labeled;
import javafx.scene.image.PixelFormat;
import javafx.scene.image.WritableImage;
import javafx.scene.input.KeyCode;
import javafx.scene.input.KeyEvent;
import javafx.scene.input.ScrollEvent;
import javafx.stage.Stage;
import org.holdfast.app.ReviewSubject;
import org.holdfast.app.SubjectCourse;
import org.holdfast.cases.SampleFilms;
import org.holdfast.desktop.state.FilmLook;
import org.holdfast.desktop.state.FilmPlace;
import org.holdfast.desktop.viewmodel.ExamColumn.Images;
import org.holdfast.progress.Progress;
import org.holdfast.volume.VoiTransform;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;
import org.junit.jupiter.api.io.TempDir;

/** A subject with a volume and an exam of two radiographs in the window, with real events. */
@ExtendWith(WindowTest.class)
final class FilmWindowTest {

    private static final int FILMS = 1;
    private static final FilmPlace FRONT = new FilmPlace(FILMS, 0);

    @TempDir
    private static Path folder;

    private static Path subject;

    private Stage stage;
    private MainWindow window;

    @BeforeAll
    static void measureOnce() throws Exception {
        subject = SampleFilms.subject(folder.resolve("subject"));
        SubjectCourse.measure(ReviewSubject.open(subject), Progress.NONE);
    }

    @BeforeEach
    void open() throws Exception {
        stage = fx(Stage::new);
        window = fx(() -> new MainWindow(stage, new WindowRunner(Platform::runLater)));
        ReviewSubject opened = ReviewSubject.open(subject);
        fxRun(() -> {
            window.show();
            window.showSubject(opened);
        });
        settle();
    }

    @AfterEach
    void closeWindow() throws Exception {
        fxRun(() -> {
            window.close();
            stage.close();
        });
    }

    private void settle() throws Exception {
        WindowTest.waitForPulse();
        waitUntil("everything is read and drawn", () -> window.isSettled());
        WindowTest.waitForPulse();
    }

    private void press(KeyCode code, boolean control) throws Exception {
        fxRun(() -> {
            Node owner = window.scene().getFocusOwner();
            Event.fireEvent(
                    owner == null ? window.scene().getRoot() : owner,
                    new KeyEvent(KeyEvent.KEY_PRESSED, "", "", code, false, control, false, false));
        });
        settle();
    }

    private FilmLook look() {
        return window.review().orElseThrow().stateProperty().get().lookOf(FRONT);
    }

    private List<Node> all(String type) {
        List<Node> found = new ArrayList<>();
        gather(window.scene().getRoot(), type, found);
        return found;
    }

    private static void gather(Node node, String type, List<Node> found) {
        if (!node.isVisible()) {
            return;
        }
        if (node.getClass().getSimpleName().equals(type)) {
            found.add(node);
        }
        if (node instanceof Parent parent) {
            parent.getChildrenUnmodifiable().forEach(child -> gather(child, type, found));
        }
    }

    private String written() {
        List<Node> labels = all("Label");
        return String.join(
                "\n", labels.stream().map(l -> ((Labeled) l).getText()).toList());
    }

    private static int[] pixels(Node node) {
        WritableImage image = node.snapshot(null, null);
        int width = (int) image.getWidth();
        int height = (int) image.getHeight();
        int[] argb = new int[width * height];
        image.getPixelReader().getPixels(0, 0, width, height, PixelFormat.getIntArgbInstance(), argb, 0, width);
        return argb;
    }

    private static ScrollEvent wheel(double turned) {
        return new ScrollEvent(
                ScrollEvent.SCROLL,
                40,
                60,
                40,
                60,
                false,
                true,
                false,
                false,
                false,
                false,
                0,
                turned,
                0,
                turned,
                ScrollEvent.HorizontalTextScrollUnits.NONE,
                0,
                ScrollEvent.VerticalTextScrollUnits.NONE,
                0,
                0,
                null);
    }

    @Test
    void filmsStandInTheirColumnWithTheirScaleInWords() throws Exception {
        assertTrue(
                fx(() -> window.review()
                                .orElseThrow()
                                .columns()
                                .get(FILMS)
                                .imagesProperty()
                                .get())
                        instanceof Images.Films);
        assertEquals(2, fx(() -> all("FilmPane")).size());
        assertEquals(2, fx(() -> all("CutPane")).size(), "the volume's cuts along and across");
        String written = fx(this::written);
        for (String words : List.of(
                "X-ray, front + side",
                "scale ÷ 1.15, an estimate · day 386",
                "13 mo · front (AP)",
                "13 mo · side (LL)",
                "no map on a radiograph",
                "Verdict: reader only",
                "a radiograph has no HU")) {
            assertTrue(written.contains(words), words + " in\n" + written);
        }
    }

    @Test
    void wheelMagnifiesAndWhatWasDoneIsTakenBack() throws Exception {
        Node film = fx(() -> all("FilmPane").get(0));
        int[] before = fx(() -> pixels(film));
        // By hand: a film drawn in greys has more than the well's one tone.
        assertTrue(Arrays.stream(before).distinct().count() > 20);
        fxRun(() -> Event.fireEvent(film, wheel(80)));
        settle();
        // By hand: two notches of 1.15
        assertEquals(1.15 * 1.15, look().zoom(), 1e-12);
        assertNotEquals(Arrays.hashCode(before), Arrays.hashCode(fx(() -> pixels(film))));
        press(KeyCode.Z, true);
        assertEquals(FilmLook.FITTED, look());
        assertEquals(Arrays.hashCode(before), Arrays.hashCode(fx(() -> pixels(film))));
    }

    @Test
    @SuppressWarnings("unchecked")
    void windowsOfTheFileAreOffered() throws Exception {
        ComboBox<VoiTransform> box =
                (ComboBox<VoiTransform>) fx(() -> all("FilmWindowBox").get(0));
        List<String> names =
                fx(() -> box.getItems().stream().map(VoiTransform::name).toList());
        assertEquals(List.of("NORMAL", "HARD", "automatic", "whole range"), names);
        assertEquals("NORMAL", fx(() -> box.getValue().name()));
        fxRun(() -> box.setValue(box.getItems().get(1)));
        settle();
        assertEquals("HARD", look().window().orElseThrow().name());
    }

    @Test
    void keysChangeTheWindowOfTheFilm() throws Exception {
        press(KeyCode.W, false);
        press(KeyCode.UP, false);
        // By hand: 12.5 of 250 pixels: a twentieth of 600 wider
        assertEquals(630, ((VoiTransform.Window) look().window().orElseThrow()).width(), 1e-9);
        press(KeyCode.ESCAPE, false);
        assertEquals(FilmLook.FITTED, look());
    }

    @Test
    void wholeExamShowsAFilmLargeAndTheOtherByAKey() throws Exception {
        press(KeyCode.V, false);
        String written = fx(this::written);
        assertTrue(
                written.contains("X-ray (DX), front (AP) · scale: detector ÷ magnification 1.15, an estimate"),
                written);
        assertTrue(fx(() -> all("FilmPage")).size() == 1);
        press(KeyCode.PERIOD, false);
        assertTrue(fx(this::written).contains("X-ray (DX), side (LL)"));
        press(KeyCode.V, false);
        assertEquals(0, fx(() -> all("FilmPage")).size());
    }
}
