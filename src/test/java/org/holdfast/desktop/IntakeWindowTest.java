package org.holdfast.desktop;

import static org.holdfast.desktop.WindowTest.fx;
import static org.holdfast.desktop.WindowTest.fxRun;
import static org.holdfast.desktop.WindowTest.waitUntil;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import javafx.application.Platform;
import javafx.event.Event;
import javafx.scene.Node;
import javafx.scene.control.Button;
import javafx.scene.control.Labeled;
import javafx.scene.input.KeyCode;
import javafx.scene.input.KeyEvent;
import javafx.stage.Stage;
import org.holdfast.app.TakeInPlan.Way;
import org.holdfast.cases.SampleFilms;
import org.holdfast.cases.SampleSubject;
import org.holdfast.desktop.viewmodel.IntakeStage.Shown;
import org.holdfast.dicom.DataSet;
import org.holdfast.dicom.DicomFile;
import org.holdfast.dicom.DicomReader;
import org.holdfast.dicom.DicomWriter;
import org.holdfast.dicom.PixelCopy;
import org.holdfast.dicom.Tag;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;
import org.junit.jupiter.api.io.TempDir;

/** Taking exams in through the window. */
@ExtendWith(WindowTest.class)
final class IntakeWindowTest {

    // Source: sample-images/demo-subject/subject.json
    private static final LocalDate SURGERY = LocalDate.of(2024, 3, 11);

    @TempDir
    private Path home;

    private final String usualHome = System.getProperty("user.home");
    private Stage stage;
    private MainWindow window;

    @BeforeEach
    void openWindow() throws Exception {
        System.setProperty("user.home", home.toString());
        fxRun(() -> {
            stage = new Stage();
            window = new MainWindow(stage, new WindowRunner(Platform::runLater));
            stage.setWidth(1280);
            stage.setHeight(800);
            window.show();
            window.showFirstRun();
        });
    }

    @AfterEach
    void closeWindow() throws Exception {
        fxRun(() -> {
            window.close();
            stage.close();
        });
        System.setProperty("user.home", usualHome);
    }

    @Test
    void whatIsDroppedBecomesCards() throws Exception {
        read(exam(0));
        assertEquals(1, fx(() -> nodes(".series-card").size()));
        assertEquals(0, fx(() -> nodes(".series-thumbnail .image-words").stream()
                .filter(node -> !((Labeled) node).getText().isEmpty())
                .count()));
        assertTrue(fx(() -> nodes(".intake-counts").stream()
                .anyMatch(node -> ((Labeled) node).getText().contains("1 series · 1 exam"))));
    }

    @Test
    void aMissingDateBlocksTakingInAndSaysWhy() throws Exception {
        read(undated());
        fxRun(() -> {
            window.intake().code("S-1");
            window.intake().operation(Optional.of(SURGERY));
        });
        assertTrue(fx(() -> button("Take in 1 exam").isDisabled()));
        assertTrue(
                fx(this::texts).stream().anyMatch(text -> text.contains("an exam has no date in its files")),
                () -> "the reason stands under the button");
        fxRun(() -> window.intake().date(shown().patient().exams().get(0), Optional.of(LocalDate.of(2024, 6, 11))));
        assertFalse(fx(() -> button("Take in 1 exam").isDisabled()));
    }

    @Test
    void takenInExamsOpenTheirReviewWhereTheConstructIsThere() throws Exception {
        Path folder = Files.createDirectories(home.resolve("Holdfast/subjects/S-1"));
        Files.copy(SampleSubject.constructFile(), folder.resolve("construct.json"));
        read(exam(0));
        fxRun(() -> {
            window.intake().code("S-1");
            window.intake().operation(Optional.of(SURGERY));
            window.intake().way(Way.REFER);
            button("Take in 1 exam").fire();
        });
        waitUntil("the review is open", () -> window.review().isPresent());
        assertEquals(
                "S-1", fx(() -> window.review().orElseThrow().subject().folder().code()));
    }

    @Test
    void aBadZipIsSaid() throws Exception {
        Path zip = Files.write(home.resolve("disc.zip"), new byte[] {'P', 'K', 3, 4, 0, 0, 0});
        fxRun(() -> window.read(List.of(zip)));
        waitUntil("the zip was looked at", () -> window.isSettled());
        assertTrue(fx(this::texts).stream().anyMatch(text -> text.contains("No images were found in the file")));
    }

    @Test
    void arrowsLeadFromCardToCardAndEnterShowsTheWholeSeries() throws Exception {
        read(exam(0), exam(2));
        fxRun(() -> nodes(".series-card").get(0).requestFocus());
        press(KeyCode.DOWN);
        assertTrue(fx(() -> nodes(".series-card").get(1).isFocused()));
        press(KeyCode.ENTER);
        waitUntil("the series is there", () -> window.isSettled());
        assertEquals(1, fx(() -> nodes(".whole-exam").size()));
        press(KeyCode.ESCAPE);
        assertEquals(0, fx(() -> nodes(".whole-exam").size()));
        assertEquals(2, fx(() -> nodes(".series-card").size()));
    }

    @Test
    void anXRayIsShownLarge() throws Exception {
        Path films = home.resolve("films");
        SampleFilms.write(films, "AP");
        read(films);
        fxRun(() -> nodes(".series-card").get(0).requestFocus());
        press(KeyCode.ENTER);
        waitUntil("the film is there", () -> window.isSettled());
        assertEquals(1, fx(() -> nodes(".whole-exam .image-well").size()));
        assertTrue(fx(() -> nodes(".whole-exam .image-words").stream().noneMatch(Node::isVisible)));
        assertTrue(fx(this::texts).stream().anyMatch(text -> text.contains("nothing is measured here")));
        press(KeyCode.ESCAPE);
        assertEquals(0, fx(() -> nodes(".whole-exam").size()));
    }

    private static Path exam(int n) {
        return SampleSubject.exams().get(n).folder();
    }

    private void read(Path... paths) throws Exception {
        fxRun(() -> window.read(List.of(paths)));
        waitUntil(
                "cards are there",
                () -> window.isSettled() && !nodes(".series-card").isEmpty());
        waitUntil("pictures are there", () -> window.isSettled());
    }

    private Path undated() throws Exception {
        Path folder = Files.createDirectories(home.resolve("undated"));
        try (Stream<Path> files = Files.list(exam(1))) {
            for (Path each : files.sorted().limit(12).toList()) {
                writeUndated(each, folder.resolve(each.getFileName()));
            }
        }
        return folder;
    }

    private static void writeUndated(Path from, Path to) throws Exception {
        DicomFile file = DicomReader.read(from);
        DataSet.Builder header = file.dataSet().toBuilder();
        for (int tag : new int[] {Tag.STUDY_DATE, Tag.SERIES_DATE, Tag.ACQUISITION_DATE, Tag.CONTENT_DATE}) {
            header.string(tag, "");
        }
        DicomWriter.write(to, header.build(), PixelCopy.of(file));
    }

    private Shown shown() {
        return (Shown) window.intake().stageProperty().get();
    }

    private void press(KeyCode code) throws Exception {
        fxRun(() -> {
            Node target = window.scene().getFocusOwner();
            Event.fireEvent(
                    target == null ? window.scene().getRoot() : target,
                    new KeyEvent(KeyEvent.KEY_PRESSED, "", "", code, false, false, false, false));
        });
    }

    private List<Node> nodes(String selector) {
        return window.scene().getRoot().lookupAll(selector).stream().toList();
    }

    private Button button(String text) {
        return nodes(".button").stream()
                .filter(node -> node instanceof Button button && text.equals(button.getText()))
                .map(Button.class::cast)
                .findFirst()
                .orElseThrow();
    }

    private List<String> texts() {
        return nodes(".label").stream().map(node -> ((Labeled) node).getText()).toList();
    }
}
