package org.holdfast.desktop;

import static org.holdfast.desktop.WindowTest.fx;
import static org.holdfast.desktop.WindowTest.fxRun;
import static org.holdfast.desktop.WindowTest.waitUntil;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;
import javafx.application.Platform;
import javafx.event.Event;
import javafx.scene.Node;
import javafx.scene.Parent;
import javafx.scene.control.Labeled;
import javafx.scene.image.PixelFormat;
import javafx.scene.image.WritableImage;
import javafx.scene.input.KeyCode;
import javafx.scene.input.KeyEvent;
import javafx.scene.input.MouseButton;
import javafx.scene.input.MouseEvent;
import javafx.scene.input.ScrollEvent;
import javafx.stage.Stage;
import org.holdfast.app.PoseFile;
import org.holdfast.app.ReviewSubject;
import org.holdfast.app.SubjectCourse;
import org.holdfast.desktop.state.ImageMark;
import org.holdfast.desktop.state.MapKind;
import org.holdfast.desktop.view.Theme;
import org.holdfast.desktop.viewmodel.ExamColumn.Images;
import org.holdfast.desktop.viewmodel.ReviewViewModel;
import org.holdfast.progress.Progress;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;
import org.junit.jupiter.api.io.TempDir;

/** The main path through the window, on the sample images, with real events. */
@ExtendWith(WindowTest.class)
final class ReviewWindowTest {

    private static final Path SAMPLE = Path.of("sample-images/demo-subject");
    private static final String FACE = "cranial-face";
    private static final String SCREW = "screw-l2-left";
    private static final int LAST = 4;

    @TempDir
    private static Path folder;

    private static Path measured;

    private Stage stage;
    private MainWindow window;

    @BeforeAll
    static void measureOnce() throws Exception {
        measured = copied("measured");
        SubjectCourse.measure(ReviewSubject.open(measured), Progress.NONE);
    }

    @AfterEach
    void closeWindow() throws Exception {
        if (window != null) {
            fxRun(() -> {
                window.close();
                stage.close();
            });
        }
    }

    @Test
    void showsTheWholeCourseAndMeasuresNothingTwice() throws Exception {
        open(measured);
        assertEquals(Set.of(Images.Loaded.class), fx(this::kindsOfImages));
        List<String> cells = fx(() -> texts("matrix-cell"));
        // By hand: nine parts by five exams; two of the parts are faces.
        assertEquals(45, cells.size());
        assertEquals(10, cells.stream().filter(text -> text.endsWith("\u2009%")).count(), cells::toString);
        assertEquals(0, cells.stream().filter("not measured"::equals).count(), cells::toString);
        assertEquals(5, fx(() -> texts("number").size() - 1), "a number under each exam, and one in the panel");
        assertTrue(fx(() -> texts("small-text")).stream().anyMatch(text -> text.contains("bone, or a gap < ")));
    }

    @Test
    void aClickOnTheMatrixChoosesPartAndExamAtOnce() throws Exception {
        open(measured);
        Node cell = fx(() -> nodes("matrix-cell").stream()
                .filter(node -> String.valueOf(node.getAccessibleText()).startsWith("Pedicle screw L2 left, 6 mo"))
                .findFirst()
                .orElseThrow());
        fxRun(() -> Event.fireEvent(cell, mouse(MouseEvent.MOUSE_PRESSED, 5, 5, false)));
        assertEquals(SCREW, review().stateProperty().get().partId());
        assertEquals(2, review().stateProperty().get().exam());
    }

    @Test
    void wheelStepsEveryExamWhileTheyAreLinkedAndOneWhileTheyAreFree() throws Exception {
        open(measured);
        List<Node> cuts = fx(this::cuts);
        List<Integer> before =
                fx(() -> cuts.stream().map(ReviewWindowTest::pixels).toList());
        fxRun(() -> Event.fireEvent(cuts.get(0), wheel(cuts.get(0), -400)));
        settle();
        List<Integer> linked =
                fx(() -> cuts.stream().map(ReviewWindowTest::pixels).toList());
        for (int cut = 0; cut < cuts.size(); cut += 2) {
            assertNotEquals(before.get(cut), linked.get(cut), "cut along of exam " + cut / 2);
        }
        press(KeyCode.J, false);
        fxRun(() -> Event.fireEvent(cuts.get(0), wheel(cuts.get(0), 400)));
        settle();
        List<Integer> free =
                fx(() -> cuts.stream().map(ReviewWindowTest::pixels).toList());
        assertNotEquals(linked.get(0), free.get(0));
        assertEquals(linked.subList(2, linked.size()), free.subList(2, free.size()));
    }

    @Test
    void aLengthIsDrawnReadAndTakenBack() throws Exception {
        open(measured);
        Node cut = fx(this::cuts).get(0);
        press(KeyCode.L, false);
        Node layer = fx(() -> picked(cut, 30, 40));
        fxRun(() -> {
            Event.fireEvent(layer, mouse(MouseEvent.MOUSE_PRESSED, 30, 40, false));
            Event.fireEvent(layer, mouse(MouseEvent.MOUSE_DRAGGED, 90, 40, false));
            Event.fireEvent(layer, mouse(MouseEvent.MOUSE_RELEASED, 90, 40, false));
        });
        List<ImageMark> marks = review().stateProperty().get().marks();
        assertEquals(1, marks.size());
        settle();
        assertTrue(fx(() -> texts("image-label")).stream().anyMatch(text -> text.endsWith("\u2009mm")));
        press(KeyCode.Z, true);
        assertEquals(List.of(), review().stateProperty().get().marks());
    }

    @Test
    void keysGoThroughPartsExamsPagesAndThemes() throws Exception {
        open(measured);
        press(KeyCode.HOME, false);
        assertEquals(0, review().stateProperty().get().exam());
        press(KeyCode.RIGHT, false);
        press(KeyCode.DOWN, false);
        assertEquals(1, review().stateProperty().get().exam());
        assertEquals("rod-right", review().stateProperty().get().partId());
        press(KeyCode.F1, false);
        assertEquals(1, fx(() -> nodes("cover-page").size()));
        press(KeyCode.DOWN, false);
        assertEquals("rod-right", review().stateProperty().get().partId(), "keys rest under a page");
        press(KeyCode.ESCAPE, false);
        assertEquals(0, fx(() -> nodes("cover-page").size()));
        press(KeyCode.V, false);
        assertEquals(1, fx(() -> nodes("whole-exam").size()));
        press(KeyCode.V, false);
        assertEquals(0, fx(() -> nodes("whole-exam").size()));
        List<String> dark = fx(() -> window.scene().getStylesheets().stream().toList());
        press(KeyCode.F9, false);
        assertNotEquals(dark, fx(() -> window.scene().getStylesheets().stream().toList()));
        fxRun(() -> window.setTheme(Theme.DARK));
    }

    @Test
    void keysSwitchTheMapAndNudgeTheConstruct() throws Exception {
        Path nudged = copiedFrom(measured, "nudged");
        Path poses = nudged.resolve(PoseFile.DOCUMENT);
        open(nudged);
        assertEquals(Optional.of(MapKind.BY_FIT), review().map());
        press(KeyCode.T, false);
        assertEquals(Optional.of(MapKind.BY_THRESHOLD), review().map());
        press(KeyCode.G, false);
        assertTrue(review().outlinedProperty().get());
        press(KeyCode.UP, false);
        assertEquals(Set.of(LAST), review().stateProperty().get().nudged().keySet());
        press(KeyCode.ESCAPE, false);
        assertEquals(Set.of(), review().stateProperty().get().nudged().keySet());
        assertFalse(review().outlinedProperty().get());
        assertFalse(Files.exists(poses) && Files.readString(poses).contains("24 mo"));
        press(KeyCode.G, false);
        press(KeyCode.UP, false);
        press(KeyCode.ENTER, false);
        assertTrue(Files.readString(poses).contains("24 mo"));
        assertTrue(fx(() -> texts("small-text")).stream().anyMatch(text -> text.contains("nudged")));
        assertTrue(fx(() -> texts("button")).contains("Measure again"));
    }

    @Test
    void numbersOfOtherSettingsAreShownAsOld() throws Exception {
        Path other = copiedFrom(measured, "other-settings");
        Files.writeString(
                other.resolve(ReviewSubject.SETTINGS_DOCUMENT), "{\"boneThreshold\": \"FIXED\", \"fixedBoneHu\": 200}");
        open(other);
        waitUntil("the numbers are known to be old", () -> review().results()
                .knownProperty()
                .get()
                .staleness("24 mo", FACE)
                .isPresent());
        settle();
        assertTrue(
                fx(() -> texts("small-text")).stream().anyMatch(text -> text.contains("fixedBoneHu 250.0, now 200.0")));
        assertTrue(fx(() -> texts("button")).contains("Measure again"));
    }

    @Test
    void anExamThatCannotBeReadSaysSoAndTheOthersWork() throws Exception {
        Path damaged = copiedFrom(measured, "damaged");
        try (Stream<Path> files = Files.list(damaged.resolve("exam-3-6-mo"))) {
            for (Path file : files.toList()) {
                Files.writeString(file, "not an image");
            }
        }
        open(damaged);
        assertTrue(review().columns().get(2).imagesProperty().get() instanceof Images.Failed);
        assertTrue(review().columns().get(LAST).imagesProperty().get() instanceof Images.Loaded);
        assertTrue(fx(() -> texts("image-words")).stream().anyMatch(text -> text.contains("exam-3-6-mo")));
    }

    private void open(Path subject) throws Exception {
        stage = fx(Stage::new);
        window = fx(() -> new MainWindow(stage, new WindowRunner(Platform::runLater)));
        ReviewSubject opened = ReviewSubject.open(subject);
        fxRun(() -> {
            window.show();
            window.showSubject(opened);
        });
        settle();
    }

    private void settle() throws Exception {
        WindowTest.waitForPulse();
        waitUntil("everything is read and drawn", () -> window.isSettled());
        WindowTest.waitForPulse();
    }

    private ReviewViewModel review() {
        return window.review().orElseThrow();
    }

    private void press(KeyCode code, boolean control) throws Exception {
        fxRun(() -> {
            Node owner = window.scene().getFocusOwner();
            Event.fireEvent(
                    owner == null ? window.scene().getRoot() : owner,
                    new KeyEvent(KeyEvent.KEY_PRESSED, "", "", code, false, control, false, false));
        });
        WindowTest.waitForPulse();
    }

    private Set<Class<?>> kindsOfImages() {
        Set<Class<?>> kinds = new java.util.HashSet<>();
        review().columns()
                .all()
                .forEach(column -> kinds.add(column.imagesProperty().get().getClass()));
        return kinds;
    }

    /** Cuts along and across, exam by exam. */
    private List<Node> cuts() {
        return nodes("image-well").stream()
                .filter(node -> node.getClass().getSimpleName().equals("CutPane"))
                .toList();
    }

    private List<Node> nodes(String styleClass) {
        List<Node> found = new ArrayList<>();
        gather(window.scene().getRoot(), styleClass, found);
        return found;
    }

    private static void gather(Node node, String styleClass, List<Node> found) {
        if (!node.isVisible()) {
            return;
        }
        if (node.getStyleClass().contains(styleClass)) {
            found.add(node);
        }
        if (node instanceof Parent parent) {
            parent.getChildrenUnmodifiable().forEach(child -> gather(child, styleClass, found));
        }
    }

    /** What is written in nodes of a style class. */
    private List<String> texts(String styleClass) {
        List<String> texts = new ArrayList<>();
        for (Node node : nodes(styleClass)) {
            List<Node> labels = new ArrayList<>(List.of(node));
            if (node instanceof Parent parent && !(node instanceof Labeled)) {
                labels.addAll(parent.getChildrenUnmodifiable());
            }
            labels.stream()
                    .filter(Labeled.class::isInstance)
                    .map(label -> ((Labeled) label).getText())
                    .forEach(texts::add);
        }
        return texts;
    }

    /** The node that a press at a place of another would reach. */
    private static Node picked(Node node, double x, double y) {
        Node found = node;
        if (node instanceof Parent parent) {
            for (Node child : parent.getChildrenUnmodifiable()) {
                boolean takes = child.isVisible() && !child.isMouseTransparent() && child.isPickOnBounds();
                if (takes && child.contains(child.parentToLocal(x, y))) {
                    found = picked(child, x, y);
                }
            }
        }
        return found;
    }

    private static int pixels(Node node) {
        WritableImage image = node.snapshot(null, null);
        int width = (int) image.getWidth();
        int height = (int) image.getHeight();
        int[] argb = new int[width * height];
        image.getPixelReader().getPixels(0, 0, width, height, PixelFormat.getIntArgbInstance(), argb, 0, width);
        return Arrays.hashCode(argb);
    }

    private static MouseEvent mouse(javafx.event.EventType<MouseEvent> type, double x, double y, boolean alt) {
        return new MouseEvent(
                type,
                x,
                y,
                x,
                y,
                MouseButton.PRIMARY,
                1,
                false,
                false,
                alt,
                false,
                true,
                false,
                false,
                true,
                false,
                true,
                null);
    }

    private static ScrollEvent wheel(Node node, double turned) {
        return new ScrollEvent(
                ScrollEvent.SCROLL,
                10,
                10,
                10,
                10,
                false,
                false,
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

    private static Path copied(String name) throws IOException {
        return copiedFrom(SAMPLE, name);
    }

    private static Path copiedFrom(Path from, String name) throws IOException {
        Path to = folder.resolve(name);
        try (Stream<Path> all = Files.walk(from)) {
            for (Path each : all.toList()) {
                Path target = to.resolve(from.relativize(each).toString());
                if (Files.isDirectory(each)) {
                    Files.createDirectories(target);
                } else {
                    Files.copy(each, target);
                }
            }
        }
        return to;
    }
}
