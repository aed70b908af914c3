package org.holdfast.desktop.viewmodel;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.holdfast.app.IntakeSeries;
import org.holdfast.app.SeriesRole;
import org.holdfast.app.TakeInPlan.Way;
import org.holdfast.app.TakenIn;
import org.holdfast.cases.SampleSubject;
import org.holdfast.desktop.viewmodel.IntakePictures.Picture;
import org.holdfast.desktop.viewmodel.IntakeStage.Shown;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

final class IntakeViewModelTest {

    // Source: sample-images/demo-subject/subject.json
    private static final LocalDate SURGERY = LocalDate.of(2024, 3, 11);

    @TempDir
    private Path home;

    private final List<TakenIn> taken = new ArrayList<>();

    private IntakeViewModel model(BackgroundRunner runner) {
        return new IntakeViewModel(runner, home, taken::add);
    }

    private IntakeViewModel read() {
        IntakeViewModel model = model(SameThreadRunner.atOnce());
        model.read(List.of(SampleSubject.exams().get(0).folder()));
        return model;
    }

    private static IntakeSeries series(IntakeViewModel model) {
        return ((Shown) model.stageProperty().get()).patient().series().get(0);
    }

    @Test
    void showsWhatWasReadAndAsksForWhatIsMissing() {
        IntakeViewModel model = read();
        assertInstanceOf(Shown.class, model.stageProperty().get());
        assertEquals(2, model.questions().size());
        model.code("S-1");
        model.operation(Optional.of(SURGERY));
        assertEquals(List.of(), model.questions());
        assertEquals(home.resolve("S-1"), model.planProperty().get().target().folder());
    }

    @Test
    void aRoleIsTakenBackAndGivenAgain() {
        IntakeViewModel model = read();
        assertEquals(SeriesRole.MEASURE, model.planProperty().get().roleOf(series(model)));
        model.role(series(model), SeriesRole.VIEW);
        assertEquals(SeriesRole.VIEW, model.planProperty().get().roleOf(series(model)));
        model.undo();
        assertEquals(SeriesRole.MEASURE, model.planProperty().get().roleOf(series(model)));
        model.redo();
        assertEquals(SeriesRole.VIEW, model.planProperty().get().roleOf(series(model)));
    }

    @Test
    void nothingIsTakenInWhileAQuestionIsOpen() {
        IntakeViewModel model = read();
        model.code("S-1");
        model.takeIn();
        assertEquals(List.of(), taken);
        model.operation(Optional.of(SURGERY));
        model.way(Way.REFER);
        model.takeIn();
        assertEquals(1, taken.size());
        assertInstanceOf(IntakeStage.Done.class, model.stageProperty().get());
        assertTrue(Files.exists(home.resolve("S-1").resolve("subject.json")));
    }

    @Test
    void picturesAreMadeOfWhatIsAskedFor() {
        IntakeViewModel model = read();
        String id = series(model).id();
        assertInstanceOf(Picture.Waiting.class, model.pictures().of(id).get());
        model.pictures().want(List.of(id));
        Picture.Made made =
                assertInstanceOf(Picture.Made.class, model.pictures().of(id).get());
        // By hand: 116 × 120 pixels are not magnified
        assertEquals(116, made.picture().width());
        assertEquals(120, made.picture().height());
    }

    @Test
    void anEmptyFolderSaysThatNothingIsInIt() {
        IntakeViewModel model = model(SameThreadRunner.atOnce());
        model.read(List.of(home));
        assertInstanceOf(IntakeStage.NothingFound.class, model.stageProperty().get());
    }

    @Test
    void aStoppedReadingShowsNothing() {
        SameThreadRunner runner = SameThreadRunner.held();
        IntakeViewModel model = model(runner);
        model.read(List.of(SampleSubject.exams().get(0).folder()));
        assertInstanceOf(IntakeStage.Reading.class, model.stageProperty().get());
        assertTrue(model.stop());
        runner.next();
        assertInstanceOf(IntakeStage.Empty.class, model.stageProperty().get());
    }

    @Test
    void theFirstOfTwoReadingsIsForgotten() {
        SameThreadRunner runner = SameThreadRunner.held();
        IntakeViewModel model = model(runner);
        model.read(List.of(SampleSubject.exams().get(0).folder()));
        model.read(List.of(home));
        while (runner.next()) {
            assertTrue(!(model.stageProperty().get() instanceof Shown));
        }
        assertInstanceOf(IntakeStage.NothingFound.class, model.stageProperty().get());
    }
}
