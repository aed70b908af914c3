package org.holdfast.desktop.viewmodel;

import java.util.Objects;
import java.util.Optional;
import javafx.beans.property.ReadOnlyObjectProperty;
import javafx.beans.property.ReadOnlyObjectWrapper;
import org.holdfast.desktop.render.CutRequest;
import org.holdfast.desktop.render.PixelSize;
import org.holdfast.desktop.state.Bindings;
import org.holdfast.desktop.state.ExamPane;
import org.holdfast.desktop.state.History;
import org.holdfast.desktop.state.HuWindow;
import org.holdfast.desktop.state.PaneFrame;
import org.holdfast.desktop.state.WholeExamLook;
import org.holdfast.geometry.PatientPoint;

/**
 * One exam as a whole: its original slices and three planes of patient space through one place. Places are in the exam's
 * own space; places on a picture are device pixels from its upper left corner. Belongs to the window's thread.
 *
 * <p>It tells no more of the exam than the label that it is given, so that a blinded reading can use it with its code.
 */
public final class WholeExamViewModel {

    private final String examLabel;
    private final Bindings bindings;
    private final ReadOnlyObjectWrapper<ExamLoad> load =
            new ReadOnlyObjectWrapper<>(new ExamLoad.Loading(0, "waiting for the exam"));
    private final ReadOnlyObjectWrapper<WholeExamLook> look = new ReadOnlyObjectWrapper<>();
    private History<WholeExamLook> history;
    private Optional<ExamPlanes> planes = Optional.empty();
    private Object gesture = new Object();

    /**
     * @param examLabel what the exam is called, or its code in a blinded reading
     * @param crossing the place that is looked at first
     * @param window HU from black to white at first
     */
    public WholeExamViewModel(String examLabel, PatientPoint crossing, HuWindow window) {
        this(examLabel, crossing, window, Bindings.usual());
    }

    /**
     * @param examLabel what the exam is called, or its code in a blinded reading
     * @param crossing the place that is looked at first
     * @param window HU from black to white at first
     * @param bindings the person's mouse
     */
    public WholeExamViewModel(String examLabel, PatientPoint crossing, HuWindow window, Bindings bindings) {
        this.bindings = bindings;
        this.examLabel = Objects.requireNonNull(examLabel, "examLabel");
        this.history = new History<>(WholeExamLook.fitted(crossing, window));
        this.look.set(history.now());
    }

    /** What the exam is called. */
    public String examLabel() {
        return examLabel;
    }

    /** The person's mouse. */
    public Bindings bindings() {
        return bindings;
    }

    /** How far the exam's images are. */
    public ReadOnlyObjectProperty<ExamLoad> loadProperty() {
        return load.getReadOnlyProperty();
    }

    /** What is shown of it. */
    public ReadOnlyObjectProperty<WholeExamLook> lookProperty() {
        return look.getReadOnlyProperty();
    }

    /** What is shown of it. */
    public WholeExamLook look() {
        return look.get();
    }

    /** Where its pictures lie; empty until it is loaded. */
    public Optional<ExamPlanes> planes() {
        return planes;
    }

    /** Tells how far the exam's images are; a place beside the stack moves into it. */
    public void setLoad(ExamLoad now) {
        if (now instanceof ExamLoad.Loaded loaded) {
            ExamPlanes of = new ExamPlanes(loaded.volume().grid());
            planes = Optional.of(of);
            load.set(now);
            // Nothing before can be taken back: a place beside the exam is none.
            history = new History<>(look().at(of.within(look().crossing())));
            look.set(history.now());
        } else {
            planes = Optional.empty();
            load.set(now);
        }
    }

    /** What is to be drawn of a picture; empty until the exam is loaded or while the picture has no size. */
    public Optional<CutRequest> request(ExamPane pane, PixelSize size) {
        if (load.get() instanceof ExamLoad.Loaded loaded) {
            return geometry(pane, size)
                    .map(at -> new CutRequest(loaded.volume(), at.plane(), Optional.empty(), look().window()));
        }
        return Optional.empty();
    }

    /** Where a picture lies; empty until the exam is loaded or while the picture has no size. */
    public Optional<CutGeometry> geometry(ExamPane pane, PixelSize size) {
        return size.isEmpty()
                ? Optional.empty()
                : planes.map(of -> of.geometry(pane, look(), size.width(), size.height()));
    }

    /** Goes on along a picture's normal: one slice, or one voxel's extent, a step; forward is away from the viewer. */
    public void step(ExamPane pane, int steps) {
        planes.ifPresent(of -> become(look().at(of.stepped(pane, look().crossing(), steps)), "step", "step " + pane));
    }

    /** Moves the crossing to a place on a picture; what lies beside the exam is not reached. */
    public void moveCrossing(ExamPane pane, PixelSize size, double x, double y) {
        geometry(pane, size)
                .ifPresent(at ->
                        become(look().at(planes.orElseThrow().clamped(at.placeAt(x, y))), "place", "crossing " + pane));
    }

    /** Magnifies a picture by a factor around a place on it. */
    public void zoom(ExamPane pane, PixelSize size, double factor, double x, double y) {
        if (planes.isPresent() && !size.isEmpty()) {
            PaneFrame frame = planes.get().zoomedAt(pane, look(), factor, x, y, size.width(), size.height());
            become(look().framed(pane, frame), "zoom", "zoom " + pane);
        }
    }

    /** Moves a picture's contents by a way in pixels. */
    public void pan(ExamPane pane, PixelSize size, double dx, double dy) {
        geometry(pane, size).ifPresent(at -> {
            PaneFrame frame = look().frame(pane);
            PaneFrame moved = new PaneFrame(frame.zoom(), frame.panMm().minus(at.wayMm(dx, dy)));
            become(look().framed(pane, moved), "pan", "pan " + pane);
        });
    }

    /** Puts a picture back to the fitted view. */
    public void fit(ExamPane pane) {
        become(look().framed(pane, PaneFrame.FITTED), "fitted view", new Object());
    }

    /** Looks through another window. */
    public void setWindow(HuWindow window) {
        become(look().through(window), "window", "window");
    }

    /** What was begun with the mouse or keys is done: what follows is taken back on its own. */
    public void endGesture() {
        gesture = new Object();
    }

    /** Takes the last act back; tells which it was. */
    public Optional<String> undo() {
        Optional<String> act = history.undo();
        look.set(history.now());
        return act;
    }

    /** Does again what was taken back last; tells which it was. */
    public Optional<String> redo() {
        Optional<String> act = history.redo();
        look.set(history.now());
        return act;
    }

    private record Gesture(Object begun, Object kind) {}

    private void become(WholeExamLook next, String act, Object kind) {
        history.become(next, act, new Gesture(gesture, kind));
        look.set(history.now());
    }
}
