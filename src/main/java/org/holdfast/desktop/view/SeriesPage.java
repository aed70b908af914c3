package org.holdfast.desktop.view;

import java.util.List;
import java.util.Optional;
import javafx.scene.control.ComboBox;
import javafx.scene.control.Label;
import javafx.scene.layout.BorderPane;
import javafx.scene.layout.HBox;
import org.holdfast.app.IntakeSeries;
import org.holdfast.app.IntakeSession;
import org.holdfast.desktop.render.CutQueue;
import org.holdfast.desktop.render.HuLandmarks;
import org.holdfast.desktop.render.WindowPresets;
import org.holdfast.desktop.state.Act;
import org.holdfast.desktop.state.Bindings;
import org.holdfast.desktop.state.WindowPreset;
import org.holdfast.desktop.viewmodel.BackgroundRunner;
import org.holdfast.desktop.viewmodel.ExamLoad;
import org.holdfast.desktop.viewmodel.FailureText;
import org.holdfast.desktop.viewmodel.WholeExamViewModel;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.volume.HuVolume;
import org.holdfast.volume.VolumeGrid;
import org.holdfast.volume.VoxelCoord;

/** A series that was read and is not taken in yet, as a whole: original slices and three planes through its middle. */
public final class SeriesPage extends BorderPane implements SeriesSight {

    /** Numbers in the drawing queue that no other page uses. */
    private static final int FIRST_CELL = 2_000_000;

    /** Fluid in a gap, for the first window; nothing is measured on this page. */
    private static final double FLUID_HU = 30;

    private static final HuLandmarks UNMEASURED = HuLandmarks.unmeasured(FLUID_HU);
    /** The view moves a place beside the stack into it. */
    private static final PatientPoint ANYWHERE = new PatientPoint(0, 0, 0);

    private final IntakeSession session;
    private final IntakeSeries series;
    private final BackgroundRunner runner;
    private final WholeExamViewModel exam;
    private final WholeExamView view;
    private Optional<HuVolume> volume = Optional.empty();
    private BackgroundRunner.Running running;
    private boolean isClosed;

    /**
     * @param session holds the series
     * @param series which
     * @param runner reads it
     * @param queue draws
     * @param bindings the person's keys and mouse
     * @param close leaves the page
     */
    public SeriesPage(
            IntakeSession session,
            IntakeSeries series,
            BackgroundRunner runner,
            CutQueue queue,
            Bindings bindings,
            Runnable close) {
        this.session = session;
        this.series = series;
        this.runner = runner;
        PatientPoint middle = series.scan().map(scan -> middle(scan.grid())).orElse(ANYWHERE);
        exam = new WholeExamViewModel(series.name(), middle, WindowPresets.boneBesideMetal(UNMEASURED), bindings);
        view = new WholeExamView(exam, queue, FIRST_CELL, this::stop, this::read);
        getStyleClass().addAll("ground-window", "whole-exam-page");
        setTop(head(bindings, close));
        setCenter(view);
        read();
    }

    @Override
    public boolean act(Act act) {
        return view.act(act);
    }

    @Override
    public boolean isSettled() {
        return !(exam.loadProperty().get() instanceof ExamLoad.Loading);
    }

    @Override
    public void close() {
        isClosed = true;
        running.cancel();
        view.close();
    }

    private HBox head(Bindings bindings, Runnable close) {
        return new WholeImageHead(
                series.name(),
                new Label(series.extent() + " · original slices and three planes of the scanner"),
                List.of(windows()),
                bindings.keyWords(Act.ESCAPE),
                close);
    }

    private ComboBox<WindowPreset> windows() {
        ComboBox<WindowPreset> box = new ComboBox<>();
        box.getItems().setAll(WindowPreset.values());
        box.setConverter(new PresetWords());
        box.setAccessibleText("window");
        box.setValue(WindowPreset.BONE_BESIDE_METAL);
        box.setOnAction(event -> {
            if (box.getValue() != null && volume.isPresent()) {
                exam.setWindow(WindowPresets.of(
                        box.getValue(), UNMEASURED, volume.get().statistics()));
                exam.endGesture();
            }
        });
        return box;
    }

    private void read() {
        exam.setLoad(new ExamLoad.Loading(0, "reading"));
        running = runner.run(
                "reading a series",
                progress -> session.volume(series.id(), progress),
                this::loaded,
                failure -> failed(FailureText.of(failure)));
        if (!running.isDone()) {
            BackgroundRunner.Running now = running;
            now.fractionProperty().subscribe(() -> progress(now));
        }
    }

    private void progress(BackgroundRunner.Running now) {
        if (!isClosed && exam.loadProperty().get() instanceof ExamLoad.Loading) {
            double done = Math.max(0, Math.min(1, now.fractionProperty().get()));
            exam.setLoad(new ExamLoad.Loading(done, now.activityProperty().get()));
        }
    }

    private void stop() {
        running.cancel();
        failed("Reading was stopped.");
    }

    private void loaded(HuVolume read) {
        if (isClosed || !(exam.loadProperty().get() instanceof ExamLoad.Loading)) {
            return;
        }
        volume = Optional.of(read);
        exam.setLoad(new ExamLoad.Loaded(read));
    }

    private void failed(String why) {
        if (!isClosed && exam.loadProperty().get() instanceof ExamLoad.Loading) {
            exam.setLoad(new ExamLoad.Failed(why));
        }
    }

    private static PatientPoint middle(VolumeGrid grid) {
        return grid.voxelToPatient(
                new VoxelCoord((grid.columns() - 1) / 2.0, (grid.rows() - 1) / 2.0, (grid.slices() - 1) / 2.0));
    }
}
