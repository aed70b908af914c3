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
    private static final List<String> EXAMS = List.of("after surgery", "3", "6", "12", "24\u2009mo");

    /** A part's course: what becomes of it, where it starts on the construct (share of the height), its states. */
    private record Story(String words, double height, List<PartState> states, boolean isContact) {}

    private static final PartState OK = PartState.NO_FINDING;
    private static final List<Story> STORIES = List.of(
            new Story("a screw that holds", 0.13, List.of(OK, OK, OK, OK, OK), false),
            new Story("apparent contact rises", 0.29, List.of(OK, OK, OK, OK, OK), true),
            new Story("a rod breaks", 0.5, List.of(OK, OK, OK, PartState.FAULT, PartState.FAULT), false),
            new Story("a gap stays open", 0.71, List.of(OK, OK, OK, PartState.CHANGED, PartState.CHANGED), false),
            new Story(
                    "a zone widens",
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
        double constructWidth = Math.min(width * 0.42, height * 0.46);
        drawing.getChildren().add(FirstRunConstruct.draw(24, 20, constructWidth, height - 40));
        double left = 24 + constructWidth + 90;
        double right = width - 190;
        double step = Math.max(24, (right - left) / 4);
        for (int n = 0; n < EXAMS.size(); n++) {
            Text text = text(0, 34, EXAMS.get(n), "tick");
            text.applyCss();
            text.setX(left + n * step - text.getLayoutBounds().getWidth() / 2);
        }
        for (Story story : STORIES) {
            story(story, left, step, 20 + story.height() * (height - 40), 24 + constructWidth);
        }
    }

    private void story(Story story, double left, double step, double y, double from) {
        CubicCurve thread = new CubicCurve(from + 6, y, from + 40, y, left - 50, y, left - 14, y);
        add(thread, "course-thread");
        for (int n = 0; n < story.states().size(); n++) {
            double x = left + n * step;
            if (n > 0) {
                add(new Line(x - step + 14, y, x - 14, y), "course-axis");
            }
            if (story.isContact()) {
                add(new Circle(x, y, 8), "first-ring");
                add(new Circle(x, y, 2 + n * 1.4), "first-share");
            } else {
                StateMark mark = new StateMark(story.states().get(n), MARK);
                mark.resizeRelocate(x - MARK / 2, y - MARK / 2, MARK, MARK);
                drawing.getChildren().add(mark);
            }
        }
        text(left + 4 * step + 24, y + 5, story.words(), "story");
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
