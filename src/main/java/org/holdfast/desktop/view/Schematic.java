package org.holdfast.desktop.view;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.function.Consumer;
import javafx.geometry.Bounds;
import javafx.geometry.Insets;
import javafx.geometry.Point2D;
import javafx.scene.AccessibleRole;
import javafx.scene.Node;
import javafx.scene.control.Label;
import javafx.scene.layout.Pane;
import javafx.scene.layout.Region;
import javafx.scene.shape.SVGPath;
import org.holdfast.construct.Construct;
import org.holdfast.construct.ConstructPart;
import org.holdfast.construct.PartKind;
import org.holdfast.desktop.state.SchematicState;
import org.holdfast.desktop.viewmodel.FrontBone;
import org.holdfast.desktop.viewmodel.FrontPart;
import org.holdfast.desktop.viewmodel.FrontPoint;
import org.holdfast.desktop.viewmodel.SchematicPlan;

/**
 * A construct from the front, the patient's right on the left as in the cuts: each part tinted by its state and numbered as
 * in the list of parts. No scale drawing.
 */
public final class Schematic extends Region {

    private static final Insets MARGINS = new Insets(12, 14, 16, 14);
    private static final double RING_PX = 15;

    private final SchematicPlan plan;
    private final Pane boneLayer = new Pane();
    private final Pane partLayer = new Pane();
    private final Pane ringLayer = new Pane();
    private final Label right = new Label("R");
    private final Label left = new Label("L");
    private final List<SchematicPart> parts = new ArrayList<>();
    private final Map<String, Label> rings = new HashMap<>();
    private Consumer<String> onPick = id -> {};
    private String picked = "";
    private boolean compact;
    private double drawnWidth;
    private double drawnHeight;

    /** A schematic of these parts, of which nothing is known yet. */
    public Schematic(Construct construct, List<ConstructPart> constructParts) {
        plan = SchematicPlan.of(construct, constructParts);
        getStyleClass().add("schematic");
        setAccessibleRole(AccessibleRole.PARENT);
        setAccessibleText("Schematic of the construct from the front");
        boneLayer.setMouseTransparent(true);
        partLayer.setPickOnBounds(false);
        ringLayer.setPickOnBounds(false);
        for (FrontPart part : backToFront()) {
            parts.add(new SchematicPart(part, id -> onPick.accept(id)));
            rings.put(part.part().id(), ring(part.part()));
        }
        partLayer.getChildren().setAll(parts);
        ringLayer.getChildren().setAll(rings.values());
        List.of(right, left).forEach(letter -> letter.getStyleClass().addAll("schematic-letter", "tick-text"));
        getChildren().addAll(boneLayer, partLayer, ringLayer, right, left);
        show(Map.of(), "", false);
    }

    private List<FrontPart> backToFront() {
        List<FrontPart> ordered = new ArrayList<>(plan.parts());
        List<PartKind> order = List.of(PartKind.BODY, PartKind.OTHER, PartKind.INTERFACE, PartKind.ROD, PartKind.SCREW);
        ordered.sort(Comparator.comparingInt(part -> order.indexOf(part.part().kind())));
        return ordered;
    }

    private Label ring(ConstructPart part) {
        Label ring = new Label(Integer.toString(part.number()));
        ring.getStyleClass().add("schematic-ring");
        ring.setManaged(false);
        ring.setAccessibleRole(AccessibleRole.NODE);
        ring.setOnMouseClicked(event -> onPick.accept(part.id()));
        return ring;
    }

    /** Called with the id of a part that was picked. */
    public void setOnPick(Consumer<String> listener) {
        onPick = Objects.requireNonNull(listener, "listener");
    }

    /**
     * Shows states.
     *
     * @param states of parts by id; a part without one is not measured
     * @param pickedId id of the picked part, or an empty text
     * @param small whether the picked number alone is shown
     */
    public void show(Map<String, SchematicState> states, String pickedId, boolean small) {
        picked = Objects.requireNonNull(pickedId, "pickedId");
        compact = small;
        for (SchematicPart part : parts) {
            part.show(
                    states.getOrDefault(part.id(), SchematicState.UNKNOWN),
                    part.id().equals(picked));
        }
        rings.forEach((id, ring) -> StyleClass.toggle(ring, "picked", id.equals(picked)));
        drawnWidth = 0;
        requestLayout();
    }

    @Override
    protected double computePrefWidth(double height) {
        return 132;
    }

    @Override
    protected double computePrefHeight(double width) {
        return 240;
    }

    @Override
    protected void layoutChildren() {
        double width = getWidth();
        double height = getHeight();
        for (Region layer : List.of(boneLayer, partLayer, ringLayer)) {
            layer.resizeRelocate(0, 0, width, height);
        }
        partLayer.getChildren().forEach(part -> part.resizeRelocate(0, 0, width, height));
        if (width > 0 && height > 0 && (width != drawnWidth || height != drawnHeight)) {
            drawnWidth = width;
            drawnHeight = height;
            draw(FrontFit.of(plan, width, height, MARGINS));
        }
    }

    private void draw(FrontFit fit) {
        boneLayer.getChildren().clear();
        plan.bones().forEach(bone -> drawBone(bone, fit));
        parts.forEach(part -> part.draw(fit));
        applyCss();
        placeRings(fit);
        right.autosize();
        left.autosize();
        right.relocate(2, drawnHeight - right.getHeight());
        left.relocate(drawnWidth - left.getWidth() - 2, drawnHeight - left.getHeight());
    }

    private void drawBone(FrontBone bone, FrontFit fit) {
        Point2D a = fit.at(new FrontPoint(bone.middleMm() - bone.halfWidthMm(), bone.topMm()));
        Point2D b = fit.at(new FrontPoint(bone.middleMm() + bone.halfWidthMm(), bone.bottomMm()));
        double waist = Math.min(8, 0.12 * (b.getX() - a.getX()));
        SVGPath outline = new SVGPath();
        outline.setContent(String.format(
                Locale.ROOT,
                "M%1$.1f %2$.1f Q%5$.1f %7$.1f %3$.1f %2$.1f Q%6$.1f %4$.1f %3$.1f %8$.1f"
                        + " Q%5$.1f %9$.1f %1$.1f %8$.1f Q%10$.1f %4$.1f %1$.1f %2$.1fZ",
                a.getX(),
                a.getY(),
                b.getX(),
                (a.getY() + b.getY()) / 2,
                (a.getX() + b.getX()) / 2,
                b.getX() - 2 * waist,
                a.getY() + 4,
                b.getY(),
                b.getY() - 4,
                a.getX() + 2 * waist));
        outline.getStyleClass().add("schematic-bone");
        Label name = new Label(bone.label());
        name.getStyleClass().addAll("schematic-bone-name", "tick-text");
        boneLayer.getChildren().addAll(outline, name);
        name.applyCss();
        name.autosize();
        name.relocate(
                Math.round((a.getX() + b.getX() - name.prefWidth(-1)) / 2),
                Math.round((a.getY() + b.getY() - name.prefHeight(-1)) / 2));
    }

    /** A number that would lie on another one is left off: the list of parts has it. The picked one goes first. */
    private void placeRings(FrontFit fit) {
        List<SchematicPart> order = new ArrayList<>(parts);
        order.sort(Comparator.comparing(part -> !part.id().equals(picked)));
        List<Bounds> taken = new ArrayList<>();
        for (SchematicPart part : order) {
            Label ring = rings.get(part.id());
            Point2D at = ringPlace(part.front(), fit);
            ring.resizeRelocate(
                    Math.round(at.getX() - RING_PX / 2), Math.round(at.getY() - RING_PX / 2), RING_PX, RING_PX);
            Node node = ring;
            boolean free = taken.stream().noneMatch(other -> other.intersects(node.getBoundsInParent()));
            boolean shown = part.id().equals(picked) || !compact && free;
            ring.setVisible(shown);
            if (shown) {
                taken.add(ring.getBoundsInParent());
            }
        }
    }

    private Point2D ringPlace(FrontPart part, FrontFit fit) {
        List<Point2D> points = SchematicPart.placed(part, fit);
        Point2D first = points.get(0);
        Point2D last = points.get(points.size() - 1);
        Point2D place =
                switch (part.part().kind()) {
                    case SCREW -> first.add(0, first.getY() < drawnHeight / 2 ? -RING_PX : RING_PX);
                    case INTERFACE -> last.add(RING_PX / 2 + 2, 0);
                    case ROD ->
                        FrontShapes.stretch(points, 0, 0.5).stream()
                                .reduce((a, b) -> b)
                                .orElse(first);
                    default -> first.midpoint(last);
                };
        double half = RING_PX / 2;
        return new Point2D(
                Math.max(half, Math.min(drawnWidth - half, place.getX())),
                Math.max(half, Math.min(drawnHeight - half, place.getY())));
    }
}
