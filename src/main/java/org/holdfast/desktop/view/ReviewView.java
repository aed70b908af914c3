package org.holdfast.desktop.view;

import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import javafx.scene.Node;
import javafx.scene.control.Label;
import javafx.scene.layout.Region;
import javafx.util.Subscription;
import org.holdfast.app.ExamResult;
import org.holdfast.app.FilmExam;
import org.holdfast.construct.ConstructPart;
import org.holdfast.desktop.render.CutQueue;
import org.holdfast.desktop.state.CutRow;
import org.holdfast.desktop.state.FilmPlace;
import org.holdfast.desktop.state.MarkTool;
import org.holdfast.desktop.state.ReviewState;
import org.holdfast.desktop.viewmodel.CourseLines;
import org.holdfast.desktop.viewmodel.CourseResults.Known;
import org.holdfast.desktop.viewmodel.ExamColumn;
import org.holdfast.desktop.viewmodel.ExamHeading;
import org.holdfast.desktop.viewmodel.PartCell;
import org.holdfast.desktop.viewmodel.ReviewViewModel;
import org.holdfast.desktop.viewmodel.VisibleExams;

/**
 * The review of one subject: columns are exams, rows are parts, cuts, maps and numbers; under them the course, beside them
 * the panel. Lays out by hand, since every column runs through all of it.
 */
public final class ReviewView extends Region {

    private static final double GAP = 3;

    private final ReviewViewModel review;
    private final CutQueue queue;
    private final Region columnGround = new Region();
    private final Schematic schematic;
    private final MatrixView matrix;
    private final ReviewRowHeads heads;
    private final CourseChartView chart;
    private final SidePanel panel;
    private final Region gutterRule = new Region();
    private final Label hidden = new Label();
    private final List<Region> rowRules = new ArrayList<>();
    private final List<ExamColumnView> columns = new ArrayList<>();
    private final List<Subscription> listening = new ArrayList<>();
    private List<Integer> inSight = List.of();
    private boolean compact;
    private Known shownKnown;
    private ReviewState shownState;

    /**
     * @param review what is shown
     * @param queue draws the cuts
     */
    public ReviewView(ReviewViewModel review, CutQueue queue) {
        this.review = review;
        this.queue = queue;
        getStyleClass().addAll("review", "ground-window");
        columnGround.getStyleClass().add("picked-column");
        columnGround.setMouseTransparent(true);
        schematic = new Schematic(review.subject().construct(), review.parts());
        schematic.setOnPick(id -> review.pick(id, review.stateProperty().get().exam()));
        matrix = new MatrixView(review);
        MarkList marks = new MarkList(review);
        heads = new ReviewRowHeads(review);
        chart = new CourseChartView();
        chart.setOnPick((exam, part) -> review.pick(part, exam));
        chart.setOnPickExam(exam -> review.pick(review.stateProperty().get().partId(), exam));
        panel = new SidePanel(review, marks);
        gutterRule.getStyleClass().add("rule");
        place(List.of(columnGround));
        place(List.of(matrix, schematic, gutterRule));
        for (int n = 0; n < 4; n++) {
            Region rule = new Region();
            rule.getStyleClass().add("rule");
            rowRules.add(rule);
        }
        place(rowRules);
        place(heads.all());
        place(List.of(chart, panel));
        hidden.getStyleClass().addAll("small-text", "faint");
        place(List.of(hidden));
        listening.add(widthProperty().subscribe(width -> placeColumnsAnew()));
        listening.add(review.stateProperty().subscribe(this::stateChanged));
        listening.add(review.outlinedProperty().subscribe(isOn -> {
            columns.forEach(ExamColumnView::draw);
            panel.showPose();
        }));
        listening.add(review.results().knownProperty().subscribe(this::knownChanged));
        for (ExamColumn column : review.columns().all()) {
            listening.add(column.imagesProperty()
                    .subscribe(images -> redraw(column.exam().index())));
            listening.add(column.factsProperty().subscribe(facts -> factsChanged()));
            listening.add(column.filmExamProperty().subscribe(films -> factsChanged()));
        }
    }

    /** Nodes that are placed by hand: what changes inside one of them must not lay out all the others anew. */
    private void place(Collection<? extends Node> nodes) {
        nodes.forEach(node -> node.setManaged(false));
        getChildren().addAll(nodes);
    }

    /** Uses the compact set or the full one. */
    public void setCompact(boolean isCompact) {
        compact = isCompact;
        shownState = null;
        stateChanged(review.stateProperty().get());
        requestLayout();
    }

    /** The pane of a cut in an exam; empty if the exam is out of sight. */
    Optional<CutPane> pane(CutRow row, int exam) {
        int column = inSight.indexOf(exam);
        return column < 0 ? Optional.empty() : Optional.of(columns.get(column).cut(row));
    }

    /** The cut that the pointer is over, else the chosen exam's cut along the part. */
    private CutPane activePane() {
        return columns.stream()
                .flatMap(column -> column.cuts().stream())
                .filter(CutPane::isHover)
                .findFirst()
                .or(() -> pane(CutRow.ALONG, review.stateProperty().get().exam()))
                .orElseThrow();
    }

    /** The radiographs that keys act on: those under the pointer, else the chosen exam's; empty where cuts are. */
    private Optional<FilmStrip> activeFilms() {
        Optional<ExamColumnView> under = columns.stream()
                .filter(column ->
                        column.films().isHover() || column.cuts().stream().anyMatch(CutPane::isHover))
                .findFirst();
        int chosen = inSight.indexOf(review.stateProperty().get().exam());
        return under.or(() -> chosen < 0 ? Optional.empty() : Optional.of(columns.get(chosen)))
                .map(ExamColumnView::films)
                .filter(FilmStrip::isVisible);
    }

    /** The radiograph that keys act on; empty where they act on a cut. */
    public Optional<FilmPlace> activeFilm() {
        return activeFilms().map(FilmStrip::active);
    }

    /** The exam that keys act on: the one under the pointer, else the chosen one. */
    public int activeExam() {
        Optional<FilmPlace> film = activeFilm();
        if (film.isPresent()) {
            return film.get().exam();
        }
        return activePane().exam();
    }

    /** The cut that keys act on. */
    public CutRow activeRow() {
        return activePane().row();
    }

    /** Magnifies the active cut, or radiograph, at its middle. */
    public void zoom(double factor) {
        Optional<FilmStrip> films = activeFilms();
        if (films.isPresent()) {
            films.get().zoom(factor);
            return;
        }
        activePane().zoom(factor);
    }

    /** Takes a tool, or puts it away if it is in hand. */
    public void toggleTool(MarkTool tool) {
        heads.tools().toggle(tool);
    }

    /** Takes the next tool for regions. */
    public void nextRegionTool() {
        heads.tools().take(MarkTool.nextRegion(heads.tools().inHandProperty().get()));
    }

    /** Puts the tool in hand away; tells whether there was one. */
    public boolean putToolAway() {
        boolean had = heads.tools().inHandProperty().get().isPresent();
        heads.tools().take(Optional.empty());
        return had;
    }

    /** Closes a polygon that is being drawn; tells whether there was one. */
    public boolean closePolygon() {
        return columns.stream().flatMap(column -> column.cuts().stream()).anyMatch(CutPane::closePolygon);
    }

    /** Moves the focus to the next region: matrix, cuts, panel. */
    public void focusNextRegion() {
        List<Node> regions = List.of(matrix, heads.windowChoice(), heads.tools(), panel);
        Node focused = getScene() == null ? null : getScene().getFocusOwner();
        int at = 0;
        for (int n = 0; n < regions.size(); n++) {
            for (Node node = focused; node != null; node = node.getParent()) {
                if (node == regions.get(n)) {
                    at = n + 1;
                }
            }
        }
        FocusOrder.into(regions.get(at % regions.size()));
    }

    /** Stops listening and drawing. */
    public void close() {
        listening.forEach(Subscription::unsubscribe);
        columns.forEach(ExamColumnView::close);
    }

    private void stateChanged(ReviewState state) {
        boolean choiceChanged =
                shownState == null || !shownState.partId().equals(state.partId()) || shownState.exam() != state.exam();
        boolean posesChanged = shownState != null && !shownState.nudged().equals(state.nudged());
        boolean marksChanged = shownState == null || !shownState.marks().equals(state.marks());
        shownState = state;
        if (choiceChanged) {
            placeColumns(getWidth());
            showKnown();
        } else if (posesChanged) {
            showKnown();
        } else if (marksChanged) {
            panel.showMarks();
        }
        heads.show(state, compact);
        columns.forEach(ExamColumnView::draw);
    }

    private void knownChanged(Known known) {
        boolean onlyProgress = shownKnown != null
                && shownKnown.report().equals(known.report())
                && shownKnown.stale().equals(known.stale())
                && shownKnown.movedSince().equals(known.movedSince())
                && shownKnown.isMeasuring() == known.isMeasuring();
        shownKnown = known;
        if (onlyProgress) {
            panel.showStatus(known);
        } else {
            showKnown();
            // A pose that was measured anew moves the cuts.
            columns.forEach(ExamColumnView::draw);
        }
    }

    private void factsChanged() {
        if (shownKnown != null) {
            showKnown();
            columns.forEach(ExamColumnView::draw);
        }
    }

    private void redraw(int exam) {
        int column = inSight.indexOf(exam);
        if (column >= 0 && column < columns.size()) {
            columns.get(column).draw();
        }
        panel.showMarks();
        if (shownState != null && exam == shownState.exam()) {
            heads.show(shownState, compact);
        }
    }

    private void showKnown() {
        ReviewState state = review.stateProperty().get();
        Known known = review.results().knownProperty().get();
        matrix.show(state);
        for (int n = 0; n < columns.size(); n++) {
            int exam = inSight.get(n);
            columns.get(n).show(heading(exam, known), review.number(exam), exam == state.exam(), compact);
        }
        Map<String, SchematicState> tints = new HashMap<>();
        for (ConstructPart part : review.parts()) {
            PartCell cell = review.cell(part, state.exam());
            tints.put(part.id(), new SchematicState(cell.state(), cell.share(), cell.words()));
        }
        schematic.show(tints, state.partId(), compact);
        chart.show(CourseLines.of(review, known), state.exam(), compact);
        panel.show(known, heading(state.exam(), known));
        requestLayout();
    }

    private ExamHeading heading(int exam, Known known) {
        Optional<FilmExam> films = review.columns().get(exam).filmExamProperty().get();
        if (films.isPresent()) {
            return ExamHeading.of(review.exams().get(exam), films.get());
        }
        Optional<ExamResult> result = known.report()
                .flatMap(report -> report.exam(review.exams().get(exam).label()));
        return ExamHeading.of(
                review.exams().get(exam),
                review.columns().get(exam).factsProperty().get(),
                review.referenceFacts(),
                result,
                review.pose(exam));
    }

    /** As many columns as the width has room for; not while laying out, since new nodes have no style yet. */
    private void placeColumnsAnew() {
        List<Integer> before = inSight;
        if (shownState != null && getWidth() > 0) {
            placeColumns(getWidth());
            if (!before.equals(inSight)) {
                showKnown();
            }
        }
    }

    /** Gives each exam in sight a column; those that stay keep theirs. */
    private void placeColumns(double width) {
        List<Integer> wanted = VisibleExams.of(
                review.exams().size(),
                review.stateProperty().get().exam(),
                width <= 0 ? review.exams().size() : ReviewMetrics.columnsIn(width, compact));
        if (wanted.equals(inSight)) {
            return;
        }
        columns.forEach(column -> {
            column.close();
            getChildren().removeAll(column.nodes());
        });
        columns.clear();
        inSight = wanted;
        for (int exam : wanted) {
            ExamColumnView column = new ExamColumnView(review, queue, heads.tools(), exam);
            columns.add(column);
            place(column.nodes());
        }
        matrix.setColumns(wanted);
        review.columns()
                .show(new HashSet<>(wanted), review.stateProperty().get().exam());
        shownState = review.stateProperty().get();
    }

    @Override
    protected void layoutChildren() {
        ReviewMetrics m = ReviewMetrics.of(
                getWidth(), getHeight(), inSight.size(), review.parts().size(), compact);
        double gutter = m.gutterWidth();
        double right = getWidth() - m.panelWidth();
        double strip = right - gutter;
        matrix.setMetrics(m);
        matrix.resizeRelocate(0, m.matrixTop(), right, m.rows() * m.rowHeight());
        schematic.resizeRelocate(4, 4, MatrixView.namesLeft(m) - 8, m.headHeight() + m.rows() * m.rowHeight() - 8);
        double[] centres = new double[columns.size()];
        for (int n = 0; n < columns.size(); n++) {
            double x = gutter + n * m.columnWidth();
            columns.get(n).layout(m, x, GAP);
            centres[n] = x + m.columnWidth() / 2 - gutter;
        }
        int all = review.exams().size();
        hidden.setText(inSight.size() < all ? inSight.size() + " of " + all + " exams in sight" : "");
        double namesLeft = MatrixView.namesLeft(m);
        hidden.resizeRelocate(namesLeft + 6, 4, gutter - namesLeft - 8, m.headHeight() - 6);
        layoutGround(m);
        heads.layout(m);
        gutterRule.resizeRelocate(gutter - 1, 0, 1, getHeight());
        double[] tops = {m.cutTop(0), m.cutTop(1), m.mapTop(), m.courseTop()};
        for (int n = 0; n < rowRules.size(); n++) {
            rowRules.get(n).resizeRelocate(0, tops[n], n == 3 ? right : gutter, 1);
        }
        chart.setColumnCentres(centres, inSight);
        chart.resizeRelocate(gutter, m.courseTop(), strip, getHeight() - m.courseTop());
        panel.resizeRelocate(right, 0, m.panelWidth(), getHeight());
    }

    private void layoutGround(ReviewMetrics m) {
        int column = inSight.indexOf(review.stateProperty().get().exam());
        columnGround.setVisible(column >= 0);
        columnGround.resizeRelocate(m.gutterWidth() + column * m.columnWidth(), 0, m.columnWidth(), m.courseTop());
    }
}
