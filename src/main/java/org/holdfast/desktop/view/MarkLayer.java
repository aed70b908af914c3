package org.holdfast.desktop.view;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import javafx.scene.input.MouseButton;
import javafx.scene.input.MouseEvent;
import javafx.scene.layout.Pane;
import javafx.util.Subscription;
import org.holdfast.desktop.state.ImageMark;
import org.holdfast.desktop.state.MarkTool;
import org.holdfast.desktop.viewmodel.FlatPicture;
import org.holdfast.desktop.viewmodel.MarkDrawing;
import org.holdfast.geometry.PatientPoint;

/** The marks of one picture: shows those that lie on its plane, and draws new ones while a tool is in hand. */
final class MarkLayer extends Pane {

    /** A press and release nearer than this is no mark, logical pixels. */
    private static final double LEAST = 3;

    private final MarkSheet sheet;
    private final MarkTools tools;
    private final Subscription listening;
    private final Map<String, MarkView> views = new LinkedHashMap<>();
    private final MarkView preview;
    private Optional<MarkDrawing> drawing = Optional.empty();
    private FlatPicture picture;
    private double pressedX;
    private double pressedY;

    MarkLayer(MarkSheet sheet, MarkTools tools) {
        this.sheet = sheet;
        this.tools = tools;
        preview = new MarkView(sheet, false);
        setPickOnBounds(false);
        listening = tools.inHandProperty().subscribe(tool -> {
            setPickOnBounds(tool.isPresent());
            abandon();
        });
        setOnMousePressed(this::pressed);
        setOnMouseDragged(this::follow);
        setOnMouseMoved(this::follow);
        setOnMouseReleased(this::released);
    }

    /** Shows the marks on a picture that lies so. What was being drawn on another plane is given up. */
    void show(FlatPicture flat) {
        picture = flat;
        if (drawing.filter(now -> !sheet.shows(picture, now.place())).isPresent()) {
            abandon();
        }
        List<ImageMark> here = sheet.on(picture);
        List<String> ids = here.stream().map(ImageMark::id).toList();
        views.entrySet().removeIf(view -> {
            boolean gone = !ids.contains(view.getKey());
            return gone && getChildren().remove(view.getValue());
        });
        for (ImageMark mark : here) {
            MarkView view = views.computeIfAbsent(mark.id(), id -> added(new MarkView(sheet, true)));
            view.show(mark, picture, getWidth(), getHeight());
        }
        showPreview();
    }

    /** Closes a polygon that is being drawn; tells whether there was one. */
    boolean closePolygon() {
        boolean can = drawing.filter(MarkDrawing::canBeClosed).isPresent();
        if (can) {
            finish();
        }
        return can;
    }

    /** Stops listening to the tools. */
    void close() {
        listening.unsubscribe();
    }

    private MarkView added(MarkView view) {
        getChildren().add(view);
        return view;
    }

    private void abandon() {
        drawing = Optional.empty();
        showPreview();
    }

    private void showPreview() {
        Optional<ImageMark> mark = drawing.flatMap(MarkDrawing::preview);
        getChildren().remove(preview);
        if (mark.isPresent() && picture != null) {
            getChildren().add(preview);
            preview.show(mark.get(), picture, getWidth(), getHeight());
        }
    }

    private void pressed(MouseEvent event) {
        Optional<MarkTool> tool = tools.inHandProperty().get();
        if (tool.isEmpty() || picture == null || event.getButton() != MouseButton.PRIMARY) {
            return;
        }
        event.consume();
        PatientPoint at = picture.place(event.getX(), event.getY());
        if (drawing.isEmpty() || tool.get().isDragged()) {
            pressedX = event.getX();
            pressedY = event.getY();
            drawing = Optional.of(new MarkDrawing(tool.get(), sheet.place(picture), at));
        } else if (event.getClickCount() > 1 && tool.get() == MarkTool.POLYGON) {
            // The first click of the two has set the last corner.
            closePolygon();
            return;
        } else if (isFar(event)) {
            setPoint(event, at);
        }
        if (drawing.filter(MarkDrawing::isComplete).isPresent()) {
            finish();
        }
        showPreview();
    }

    private void setPoint(MouseEvent event, PatientPoint at) {
        pressedX = event.getX();
        pressedY = event.getY();
        drawing.orElseThrow().set(at);
    }

    private void follow(MouseEvent event) {
        drawing.ifPresent(now -> {
            event.consume();
            now.follow(picture.place(event.getX(), event.getY()));
            showPreview();
        });
    }

    private void released(MouseEvent event) {
        if (drawing.isEmpty()) {
            return;
        }
        event.consume();
        if (drawing.get().tool().isDragged()) {
            if (isFar(event)) {
                setPoint(event, picture.place(event.getX(), event.getY()));
                finish();
            } else {
                abandon();
            }
        }
    }

    private boolean isFar(MouseEvent event) {
        return Math.hypot(event.getX() - pressedX, event.getY() - pressedY) >= LEAST;
    }

    /** A mark that is drawn puts its tool away. */
    private void finish() {
        Optional<ImageMark> mark =
                drawing.flatMap(now -> now.finished(UUID.randomUUID().toString()));
        drawing = Optional.empty();
        tools.take(Optional.empty());
        mark.ifPresent(sheet::add);
    }
}
