package org.holdfast.desktop.viewmodel;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import javafx.beans.property.ReadOnlyBooleanProperty;
import javafx.beans.property.ReadOnlyBooleanWrapper;
import javafx.beans.property.ReadOnlyObjectProperty;
import javafx.beans.property.ReadOnlyObjectWrapper;
import javafx.beans.property.ReadOnlyStringProperty;
import javafx.beans.property.ReadOnlyStringWrapper;
import javafx.util.Subscription;
import org.holdfast.app.ExamFacts;
import org.holdfast.app.ExamVolumes;
import org.holdfast.app.ReviewExam;
import org.holdfast.app.ReviewSubject;
import org.holdfast.construct.Component;
import org.holdfast.construct.ConstructPart;
import org.holdfast.construct.PartKind;
import org.holdfast.desktop.render.ConstructOutline;
import org.holdfast.desktop.state.Bindings;
import org.holdfast.desktop.state.CutLook;
import org.holdfast.desktop.state.CutRow;
import org.holdfast.desktop.state.FilmLook;
import org.holdfast.desktop.state.FilmPlace;
import org.holdfast.desktop.state.History;
import org.holdfast.desktop.state.HuWindow;
import org.holdfast.desktop.state.ImageMark;
import org.holdfast.desktop.state.MapKind;
import org.holdfast.desktop.state.ReviewState;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.holdfast.geometry.RigidTransform;
import org.holdfast.volume.Radiograph;
import org.holdfast.volume.Slab;

/**
 * One subject under review: what is chosen, how it is looked at, and every act on it. Each act makes a new state and can
 * be taken back. Used on the thread of the window only.
 */
public final class ReviewViewModel {

    /** One step along a cut's normal while no exam is there to tell its voxels' extent, mm. */
    private static final double USUAL_STEP_MM = 0.5;
    /** No step is finer than this, mm: finer ones cannot be seen. */
    private static final double FINEST_STEP_MM = 0.1;

    private final ReviewSubject subject;
    private final Bindings bindings;
    private final List<ConstructPart> parts;
    private final ExamColumns columns;
    private final CourseResults results;
    private final History<ReviewState> history;
    private final ReadOnlyObjectWrapper<ReviewState> state = new ReadOnlyObjectWrapper<>();
    private final ReadOnlyStringWrapper said = new ReadOnlyStringWrapper("");
    private final ReadOnlyBooleanWrapper outlined = new ReadOnlyBooleanWrapper();
    private final KeptPoses kept;
    private final Subscription listening;

    /**
     * @param subject what is reviewed
     * @param volumes where its images come from
     * @param runner does what takes long
     */
    public ReviewViewModel(ReviewSubject subject, ExamVolumes volumes, BackgroundRunner runner) {
        this(subject, volumes, runner, Bindings.usual());
    }

    /**
     * @param subject what is reviewed
     * @param volumes where its images come from
     * @param runner does what takes long
     * @param bindings the person's keys and mouse
     */
    public ReviewViewModel(ReviewSubject subject, ExamVolumes volumes, BackgroundRunner runner, Bindings bindings) {
        this.bindings = bindings;
        this.subject = subject;
        this.parts = ConstructPart.of(subject.construct());
        this.columns = new ExamColumns(subject, volumes, runner);
        this.results = new CourseResults(subject, volumes, runner);
        ConstructPart first = parts.stream()
                .filter(part -> part.kind() == PartKind.INTERFACE)
                .findFirst()
                .orElse(parts.get(0));
        CutLook look = CutLook.fitted(first.frame().middle(), WindowChoice.first(subject.settings()));
        this.kept = new KeptPoses(subject);
        ReviewState begin = ReviewState.first(first.id(), subject.exams().size() - 1, look);
        for (Map.Entry<Integer, RigidTransform> pose : kept.all().entrySet()) {
            begin = begin.withNudged(pose.getKey(), Optional.of(pose.getValue()));
        }
        this.history = new History<>(begin);
        state.set(history.now());
        said.set(kept.failure());
        listening = results.knownProperty().subscribe(known -> tellMoved());
    }

    /** Begins to read earlier results, or to measure. Images are read once they have a column. */
    public void start() {
        results.start();
    }

    /** What is reviewed. */
    public ReviewSubject subject() {
        return subject;
    }

    /** The person's keys and mouse. */
    public Bindings bindings() {
        return bindings;
    }

    /** All parts, in the order of the rows. */
    public List<ConstructPart> parts() {
        return parts;
    }

    /** All exams, in order of time. */
    public List<ReviewExam> exams() {
        return subject.exams();
    }

    /** The images. */
    public ExamColumns columns() {
        return columns;
    }

    /** The numbers. */
    public CourseResults results() {
        return results;
    }

    /** What is chosen and how it is looked at. */
    public ReadOnlyObjectProperty<ReviewState> stateProperty() {
        return state.getReadOnlyProperty();
    }

    /** What was taken back or done again last, for the status line. */
    public ReadOnlyStringProperty saidProperty() {
        return said.getReadOnlyProperty();
    }

    /** The chosen part. */
    public ConstructPart part() {
        return part(state.get().partId());
    }

    /** The chosen exam. */
    public ReviewExam exam() {
        return exams().get(state.get().exam());
    }

    /** Chooses a part and an exam at once. */
    public void pick(String partId, int exam) {
        ReviewState now = state.get();
        ReviewState next = now.withExam(exam);
        if (!partId.equals(now.partId())) {
            next = next.withPart(
                    partId,
                    CutLook.fitted(part(partId).frame().middle(), now.look().window()));
        }
        become(next, "choice of part and exam", "pick");
    }

    /** Goes so many parts down the rows; stays at the ends. */
    public void pickPart(int by) {
        int at = parts.indexOf(part());
        pick(parts.get(clamped(at + by, parts.size())).id(), state.get().exam());
    }

    /** Goes so many exams on; stays at the ends. */
    public void pickExam(int by) {
        pick(state.get().partId(), clamped(state.get().exam() + by, exams().size()));
    }

    /** Chooses the first or, from the end, the last exam. */
    public void pickEnd(boolean last) {
        pick(state.get().partId(), last ? exams().size() - 1 : 0);
    }

    /** The picture of a cut of the chosen part in an exam. */
    public CutGeometry geometry(CutRow row, int exam, int width, int height) {
        return CutGeometry.of(part().frame(), row, state.get().lookOf(exam), poseOf(exam), width, height);
    }

    /** Steps along a cut's normal, away from the viewer if {@code steps} is positive. */
    public void step(CutRow row, int exam, int steps) {
        PatientVector normal = row.axes(part().frame()).normal();
        CutLook look = state.get().lookOf(exam);
        PatientPoint to = look.crossing().along(normal, steps * stepMm(normal, exam));
        look(exam, look.at(to), "step", "step " + row + exam);
    }

    /** Puts the crossing of the cuts at a place; acts with an equal gesture are taken back together. */
    public void cross(int exam, PatientPoint place, Object gesture) {
        look(exam, state.get().lookOf(exam).at(place), "crossing", gesture);
    }

    /** Shows an exam through another look; acts with an equal gesture are taken back together. */
    public void look(int exam, CutLook look, String act, Object gesture) {
        become(state.get().withLook(exam, look), act, gesture);
    }

    /** Shows an exam through another window. */
    public void window(int exam, HuWindow window, Object gesture) {
        look(exam, state.get().lookOf(exam).through(window), "window", gesture);
    }

    /** Whether an exam is known to be of radiographs. */
    public boolean isFilm(int exam) {
        boolean byFiles = columns.get(exam).filmExamProperty().get().isPresent();
        String label = exams().get(exam).label();
        return byFiles
                || columns.get(exam).factsProperty().get().isEmpty()
                        && results.knownProperty()
                                .get()
                                .report()
                                .filter(report -> report.isFilm(label))
                                .isPresent();
    }

    /** A part's cell in an exam. */
    public PartCell cell(ConstructPart part, int exam) {
        return isFilm(exam)
                ? PartCell.onFilm()
                : PartCell.of(part, exams().get(exam), results.knownProperty().get());
    }

    /** What stands under an exam's pictures of the chosen part. */
    public NumberUnder number(int exam) {
        return isFilm(exam)
                ? NumberUnder.onFilm()
                : NumberUnder.of(
                        part(), exams().get(exam), results.knownProperty().get());
    }

    /** A radiograph of an exam, as its column shows it. */
    public FilmSight film(FilmPlace place) {
        return new FilmSight() {
            @Override
            public Optional<Radiograph> film() {
                return columns.get(place.exam()).film(place.film());
            }

            @Override
            public FilmLook look() {
                return state.get().lookOf(place);
            }

            @Override
            public void look(FilmLook next, String act, Object gesture) {
                become(state.get().withLook(place, next), act, gesture);
            }
        };
    }

    /** Goes back to the fitted view of the part's middle, or of the whole radiographs. */
    public void fit(int exam) {
        if (isFilm(exam)) {
            ReviewState next = state.get();
            for (int n = 0; n < ExamColumns.FILMS_SHOWN; n++) {
                FilmPlace place = new FilmPlace(exam, n);
                next = next.withLook(place, next.lookOf(place).fitted());
            }
            become(next, "fitted view", new Object());
            return;
        }
        CutLook look = state.get().lookOf(exam);
        look(exam, CutLook.fitted(part().frame().middle(), look.window()), "fitted view", new Object());
    }

    /** Links all exams or sets them free. */
    public void link(boolean linked) {
        become(state.get().withLinked(linked), linked ? "linking" : "freeing", new Object());
    }

    /** Draws a layer into one picture, or the plane alone. */
    public void slab(Optional<Slab> slab) {
        become(state.get().withSlab(slab), "slab", new Object());
    }

    /** Adds a mark. */
    public void addMark(ImageMark mark) {
        become(state.get().withMark(mark), "mark", new Object());
    }

    /** Changes a mark's shape. */
    public void changeMark(ImageMark changed, Object gesture) {
        become(state.get().withMarkChanged(changed), "change of a mark", gesture);
    }

    /** Removes a mark. */
    public void removeMark(ImageMark mark) {
        become(state.get().withoutMark(mark), "removal of a mark", new Object());
    }

    /** Shows the cut on which a mark was drawn. */
    public void goTo(ImageMark mark) {
        int exam = mark.place().exam();
        pick(mark.place().partId(), exam);
        cross(exam, poseOf(exam).inverse().apply(mark.points().get(0)), new Object());
    }

    /** Takes the last act back. */
    public void undo() {
        said.set(history.undo().map(act -> "Undone: " + act).orElse("Nothing to undo"));
        wentTo(history.now());
    }

    /** Does again what was taken back. */
    public void redo() {
        said.set(history.redo().map(act -> "Redone: " + act).orElse("Nothing to redo"));
        wentTo(history.now());
    }

    /** Shows words in the status line. */
    public void say(String words) {
        said.set(words);
    }

    /** Whether nothing is being read or measured. */
    public boolean isSettled() {
        return columns.isSettled() && !results.knownProperty().get().isMeasuring();
    }

    /** Stops all work. */
    public void close() {
        listening.unsubscribe();
        results.stop();
        columns.close();
    }

    /** Moves the construct to where it is in the exam; where nothing is known yet, nowhere. */
    public RigidTransform poseOf(int exam) {
        return pose(exam).referenceToExam();
    }

    /** Where the construct lies in an exam, and how that is known. */
    public ExamPose pose(int exam) {
        return ExamPose.of(
                Optional.ofNullable(state.get().nudged().get(exam)),
                results.knownProperty().get().exam(exams().get(exam).label()),
                columns.get(exam).factsProperty().get());
    }

    /** Whether an exam's pose may be nudged: not on the reference exam, where the construct was laid out, nor on films. */
    public boolean mayNudge(int exam) {
        return !isFilm(exam)
                && columns.get(exam)
                        .factsProperty()
                        .get()
                        .map(facts -> !facts.isReference())
                        .orElse(false);
    }

    /** Takes so many small steps with the construct in an exam; acts with an equal gesture are taken back together. */
    public void nudge(int exam, NudgeStep step, int steps, Object gesture) {
        PatientPoint centre = state.get().lookOf(exam).crossing();
        nudge(exam, step.motion(subject.construct().axes(), centre, steps), gesture);
    }

    /** Moves the construct in an exam by a motion in the construct's space. */
    public void nudge(int exam, RigidTransform motion, Object gesture) {
        if (mayNudge(exam)) {
            become(state.get().withNudged(exam, Optional.of(motion.then(poseOf(exam)))), "nudge", gesture);
        }
    }

    /** Goes back to the pose that was found, or given. */
    public void resetPose(int exam) {
        become(state.get().withNudged(exam, Optional.empty()), "reset of the pose", new Object());
        keepPoses();
    }

    /** Puts a pose back as it was before nudging began. */
    public void restorePose(int exam, Optional<RigidTransform> before, Object gesture) {
        become(state.get().withNudged(exam, before), "nudge", gesture);
    }

    /** Whether a nudged pose is not kept in the subject's folder yet. */
    public boolean hasUnkeptPoses() {
        return !state.get().nudged().equals(kept.all());
    }

    /** Keeps the poses as they are in the subject's folder; numbers are old until measured again. */
    public void keepPoses() {
        if (kept.keep(state.get().nudged())) {
            said.set("Pose kept: measure again for numbers that belong to it");
        } else if (!kept.failure().isEmpty()) {
            said.set(kept.failure());
        }
    }

    /** Tells the numbers of which exams were measured at another pose than is shown. */
    private void tellMoved() {
        Map<String, String> causes = new HashMap<>();
        for (ReviewExam exam : exams()) {
            results.knownProperty()
                    .get()
                    .exam(exam.label())
                    .flatMap(measured -> MovedPose.since(
                            Optional.ofNullable(state.get().nudged().get(exam.index())), measured))
                    .ifPresent(why -> causes.put(exam.label(), why));
        }
        results.movedSince(causes);
    }

    /** What the pictures of the chosen part show; empty where there is nothing to map. */
    public Optional<MapKind> map() {
        return state.get().mapOf(part().kind());
    }

    /** Shows another map of parts of the chosen kind. */
    public void map(MapKind kind) {
        become(state.get().withMap(part().kind(), kind), "map", new Object());
    }

    /** Shows the next map that there is of parts of the chosen kind. */
    public void nextMap() {
        List<MapKind> all = MapKind.of(part().kind());
        map().ifPresent(now -> map(all.get((all.indexOf(now) + 1) % all.size())));
    }

    /** The map of the chosen part in an exam. */
    public PartMap partMap(int exam) {
        if (isFilm(exam)) {
            return PartMap.not("no map on a radiograph");
        }
        return mapLook(exam)
                .map(look -> PartMap.of(
                        part(),
                        exams().get(exam).label(),
                        results.knownProperty().get(),
                        look))
                .orElseGet(() -> PartMap.not("no map of this part"));
    }

    /** What that map depends on; empty for a radiograph. */
    public Optional<PartMap.Key> mapKey(int exam) {
        return isFilm(exam)
                ? Optional.empty()
                : Optional.of(PartMap.Key.of(
                        part(),
                        exams().get(exam).label(),
                        results.knownProperty().get(),
                        mapLook(exam)));
    }

    private Optional<PartMap.Look> mapLook(int exam) {
        return map().map(kind -> new PartMap.Look(
                kind, state.get().lookOf(exam).window(), columns.get(exam).volume(), poseOf(exam)));
    }

    /** Shows the construct's outline on the cuts, or not. */
    public void outline(boolean isShown) {
        outlined.set(isShown);
    }

    /** Whether the construct's outline is shown on the cuts. */
    public ReadOnlyBooleanProperty outlinedProperty() {
        return outlined.getReadOnlyProperty();
    }

    /** The construct's outline on cuts of an exam; empty while it is not shown. */
    public Optional<ConstructOutline> outlineOf(int exam) {
        return outlined.get()
                ? Optional.of(new ConstructOutline(
                        subject.construct().components().stream()
                                .map(Component::shape)
                                .toList(),
                        poseOf(exam).inverse()))
                : Optional.empty();
    }

    /** What the reference exam's files say; empty until they were read. */
    public Optional<ExamFacts> referenceFacts() {
        return columns.all().stream()
                .flatMap(column -> column.factsProperty().get().stream())
                .filter(ExamFacts::isReference)
                .findFirst();
    }

    /** How far one step along a cut's normal goes in an exam, mm. */
    public double stepMm(CutRow row, int exam) {
        return stepMm(row.axes(part().frame()).normal(), exam);
    }

    private double stepMm(PatientVector normal, int exam) {
        return columns.get(exam)
                .factsProperty()
                .get()
                .map(facts -> facts.grid().voxelExtentMm(facts.referenceToExam().apply(normal)))
                .map(extent -> Math.max(FINEST_STEP_MM, extent))
                .orElse(USUAL_STEP_MM);
    }

    private ConstructPart part(String id) {
        return parts.stream().filter(part -> part.id().equals(id)).findFirst().orElseThrow();
    }

    private static int clamped(int index, int count) {
        return Math.max(0, Math.min(count - 1, index));
    }

    private void become(ReviewState next, String act, Object gesture) {
        history.become(next, act, gesture);
        set(history.now());
    }

    /** A pose that comes back, or goes, by undo is kept as it then is. */
    private void wentTo(ReviewState next) {
        boolean isPose = !next.nudged().equals(state.get().nudged());
        set(next);
        if (isPose) {
            keepPoses();
        }
    }

    private void set(ReviewState next) {
        boolean isPose = !next.nudged().equals(state.get().nudged());
        state.set(next);
        if (isPose) {
            tellMoved();
        }
    }
}
