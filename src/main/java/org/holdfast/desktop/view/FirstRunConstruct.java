package org.holdfast.desktop.view;

import javafx.scene.Group;
import javafx.scene.shape.Circle;
import javafx.scene.shape.CubicCurveTo;
import javafx.scene.shape.Line;
import javafx.scene.shape.LineTo;
import javafx.scene.shape.MoveTo;
import javafx.scene.shape.Path;
import javafx.scene.shape.Rectangle;
import javafx.scene.shape.Shape;

/** The construct of the first page: two vertebrae, a porous body between them, four screws, two rods of which one broke. */
final class FirstRunConstruct {

    private final Group group = new Group();
    private final double left;
    private final double top;
    private final double width;
    private final double height;

    private FirstRunConstruct(double left, double top, double width, double height) {
        this.left = left;
        this.top = top;
        this.width = width;
        this.height = height;
    }

    static Group draw(double left, double top, double width, double height) {
        FirstRunConstruct drawing = new FirstRunConstruct(left, top, width, height);
        drawing.vertebra(0, 0.26);
        drawing.vertebra(0.74, 1);
        drawing.body();
        drawing.bar(0.2, 0.285, 0.6, 0.012, "tint-ok");
        drawing.bar(0.2, 0.705, 0.6, 0.012, "tint-change");
        drawing.rods();
        drawing.screw(0.13, 0.08, "tint-plain", 1);
        drawing.screw(0.13, 0.92, "tint-plain", -1);
        drawing.screw(0.87, 0.08, "tint-plain", 1);
        drawing.screw(0.87, 0.92, "tint-fault", -1);
        return drawing.group;
    }

    private void vertebra(double from, double to) {
        double l = x(0.17);
        double r = x(0.83);
        double t = y(from);
        double b = y(to);
        double waist = width * 0.04;
        double third = (b - t) / 3;
        Path path = new Path(
                new MoveTo(l, t),
                new CubicCurveTo(l + width * 0.2, t + 6, r - width * 0.2, t + 6, r, t),
                new CubicCurveTo(r - waist, t + third, r - waist, b - third, r, b),
                new CubicCurveTo(r - width * 0.2, b - 6, l + width * 0.2, b - 6, l, b),
                new CubicCurveTo(l + waist, b - third, l + waist, t + third, l, t),
                new LineTo(l, t));
        add(path, "schematic-bone");
    }

    private void body() {
        Rectangle box = new Rectangle(x(0.23), y(0.31), width * 0.54, height * 0.38);
        box.setArcWidth(10);
        box.setArcHeight(10);
        add(box, "schematic-bone");
        double step = Math.max(11, width * 0.055);
        int row = 0;
        for (double py = y(0.31) + step; py < y(0.69) - step / 2; py += step) {
            double shift = row % 2 == 0 ? 0 : step / 2;
            int column = 0;
            for (double px = x(0.23) + step; px + shift < x(0.77) - step / 3; px += step) {
                double radius = 2 + (row * 7 + column * 5) % 4 * 0.8;
                add(new Circle(px + shift, py, radius), "first-pore");
                column++;
            }
            row++;
        }
    }

    private void bar(double fromX, double atY, double wide, double thick, String tint) {
        add(new Rectangle(x(fromX), y(atY) - height * thick / 2, width * wide, height * thick), "schematic-part", tint);
    }

    private void screw(double headX, double atY, String tint, int lean) {
        double y = y(atY) + lean * height * 0.05;
        double side = headX < 0.5 ? 1 : -1;
        double long1 = width * 0.3;
        double from = side > 0 ? x(headX) : x(headX) - long1;
        add(new Rectangle(from, y - 5, long1, 10), "schematic-part", tint);
        for (double at = 14; at < long1 - 4; at += 11) {
            add(new Line(from + at - 3, y + 5, from + at + 3, y - 5), "first-thread");
        }
        Rectangle head = new Rectangle(x(headX) - 12, y - 12, 24, 24);
        head.setArcWidth(7);
        head.setArcHeight(7);
        add(head, "schematic-part", tint);
    }

    private void rods() {
        double thick = 11;
        add(new Rectangle(x(0.87) - thick / 2, y(0.03), thick, height * 0.94), "schematic-part", "tint-plain");
        add(new Rectangle(x(0.13) - thick / 2, y(0.03), thick, height * 0.46), "schematic-part", "tint-fault");
        add(new Rectangle(x(0.13) - thick / 2 + 5, y(0.51), thick, height * 0.46), "schematic-part", "tint-fault");
    }

    private void add(Shape shape, String... names) {
        shape.getStyleClass().addAll(names);
        group.getChildren().add(shape);
    }

    private double x(double share) {
        return left + share * width;
    }

    private double y(double share) {
        return top + share * height;
    }
}
