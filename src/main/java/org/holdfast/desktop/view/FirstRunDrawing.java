package org.holdfast.desktop.view;

import java.util.List;
import javafx.scene.AccessibleRole;
import javafx.scene.Group;
import javafx.scene.Node;
import javafx.scene.layout.Region;
import javafx.scene.shape.Circle;
import javafx.scene.shape.CubicCurve;
import javafx.scene.shape.Line;
import javafx.scene.text.Text;
import org.holdfast.desktop.state.PartState;

/** A construct with the course of some of its parts beside it: what the program is about, in one drawing. */
final class FirstRunDrawing extends Region {

    private static final double MARK = 28;
    private static final double SMALL_MARK = 20;
    /** Under this width the drawing is set closer, logical pixels. */
    private static final double NARROW = 900;

    private static final List<String> EXAMS = List.of("surgery", "3", "6", "12", "24\u2009mo");

    /** A part's course: what becomes of it, where it starts on the construct (share of the height), its states. */
    private record Story(String words, double height, List<PartState> states, boolean isContact) {}

    private static final PartState OK = PartState.NO_FINDING;
    private static final List<Story> STORIES = List.of(
            new Story("a screw that holds", 0.13, List.of(OK, OK, OK, OK, OK), false),
            new Story("apparent contact rises", 0.29, List.of(OK, OK, OK, OK, OK), true),
            new Story("a rod breaks", 0.5, List.of(OK, OK, OK, PartState.FAULT, PartState.FAULT), false),
            new Story("a gap stays open", 0.71, List.of(OK, OK, OK, PartState.CHANGED, PartState.CHANGED), false),
            new Story(
                    "a lucent zone widens",
                    0.87,
                    List.of(OK, OK, PartState.CHANGED, PartState.CHANGED, PartState.FAULT),
                    false));

    private final Group drawing = new Group();

    FirstRunDrawing() {
        drawing.setManaged(false);
        getChildren().add(drawing);
        setAccessibleRole(AccessibleRole.IMAGE_VIEW);
        setAccessibleText("a construct of screws, rods and a porous body, with the course of five of its parts");
    }

    @Override
    protected void layoutChildren() {
        drawing.getChildren().clear();
        double width = getWidth();
        double height = getHeight();
        if (width < 300 || height < 200) {
            return;
        }
        boolean narrow = width < NARROW;
        double constructWidth = Math.min(width * (narrow ? 0.36 : 0.42), height * 0.46);
        drawing.getChildren().add(FirstRunConstruct.draw(24, 20, constructWidth, height - 40));
        double left = 24 + constructWidth + (narrow ? 62 : 90);
        double right = width - (narrow ? 175 : 190);
        double mark = narrow ? SMALL_MARK : MARK;
        double step = Math.max(24, (right - left) / 4);
        for (int n = 0; n < EXAMS.size(); n++) {
            Text text = text(0, 34, EXAMS.get(n), "tick");
            text.applyCss();
            text.setX(left + n * step - text.getLayoutBounds().getWidth() / 2);
        }
        for (Story story : STORIES) {
            story(story, left, step, mark, 20 + story.height() * (height - 40), 24 + constructWidth);
        }
    }

    private void story(Story story, double left, double step, double mark, double y, double from) {
        CubicCurve thread = new CubicCurve(from + 6, y, from + 40, y, left - 50, y, left - 14, y);
        add(thread, "course-thread");
        for (int n = 0; n < story.states().size(); n++) {
            double x = left + n * step;
            if (n > 0) {
                add(new Line(x - step + mark / 2 + 1, y, x - mark / 2 - 1, y), "course-axis");
            }
            if (story.isContact()) {
                add(new Circle(x, y, 8), "first-ring");
                add(new Circle(x, y, 2 + n * 1.4), "first-share");
            } else {
                StateMark drawn = new StateMark(story.states().get(n), mark);
                drawn.resizeRelocate(x - mark / 2, y - mark / 2, mark, mark);
                drawing.getChildren().add(drawn);
            }
        }
        text(left + 4 * step + 18, y + 5, story.words(), "story");
    }

    private Text text(double x, double y, String words, String tone) {
        Text text = new Text(x, y, words);
        text.getStyleClass().addAll("course-text", tone);
        drawing.getChildren().add(text);
        return text;
    }

    private void add(Node node, String name) {
        node.getStyleClass().add(name);
        drawing.getChildren().add(node);
    }
}
