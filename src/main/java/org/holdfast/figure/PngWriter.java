package org.holdfast.figure;

import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Font;
import java.awt.Graphics2D;
import java.awt.RenderingHints;
import java.awt.Shape;
import java.awt.geom.Ellipse2D;
import java.awt.geom.Line2D;
import java.awt.geom.Path2D;
import java.awt.geom.Rectangle2D;
import java.awt.image.BufferedImage;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import javax.imageio.ImageIO;

/** Paints a drawing onto pixels and writes them as PNG; needs no display. Stateless. */
public final class PngWriter {

    private PngWriter() {}

    /**
     * Writes the drawing to a file, over what is there.
     *
     * @param scale device pixels per logical pixel, above 0 and at most 8
     */
    public static void write(Drawing drawing, double scale, Path file) throws IOException {
        BufferedImage image = image(drawing, scale);
        // Through a stream of our own: ImageIO answers a missing folder with a NullPointerException of its own.
        try (var out = Files.newOutputStream(file)) {
            if (!ImageIO.write(image, "png", out)) {
                throw new IOException("this Java has no PNG writer; " + file + " was not written");
            }
        }
    }

    /**
     * The drawing as pixels, ceil(size × scale) of them each way.
     *
     * @param scale device pixels per logical pixel, above 0 and at most 8
     */
    public static Picture picture(Drawing drawing, double scale) {
        BufferedImage image = image(drawing, scale);
        int[] argb = image.getRGB(0, 0, image.getWidth(), image.getHeight(), null, 0, image.getWidth());
        for (int n = 0; n < argb.length; n++) {
            argb[n] &= 0xFFFFFF;
        }
        return new Picture(image.getWidth(), image.getHeight(), argb);
    }

    /**
     * The drawing as a picture of ceil(size × scale) pixels, opaque.
     *
     * @param scale device pixels per logical pixel, above 0 and at most 8
     */
    static BufferedImage image(Drawing drawing, double scale) {
        if (!(scale > 0 && scale <= 8)) {
            throw new IllegalArgumentException("scale must lie in (0, 8], got " + scale);
        }
        BufferedImage image = new BufferedImage(
                (int) Math.ceil(drawing.widthPx() * scale),
                (int) Math.ceil(drawing.heightPx() * scale),
                BufferedImage.TYPE_INT_RGB);
        Graphics2D graphics = image.createGraphics();
        try {
            graphics.setRenderingHint(RenderingHints.KEY_ANTIALIASING, RenderingHints.VALUE_ANTIALIAS_ON);
            graphics.setRenderingHint(RenderingHints.KEY_TEXT_ANTIALIASING, RenderingHints.VALUE_TEXT_ANTIALIAS_ON);
            graphics.setRenderingHint(RenderingHints.KEY_FRACTIONALMETRICS, RenderingHints.VALUE_FRACTIONALMETRICS_ON);
            graphics.setRenderingHint(RenderingHints.KEY_STROKE_CONTROL, RenderingHints.VALUE_STROKE_PURE);
            graphics.setColor(awt(drawing.ground()));
            graphics.fillRect(0, 0, image.getWidth(), image.getHeight());
            graphics.scale(scale, scale);
            drawing.marks().forEach(mark -> paint(mark, graphics));
        } finally {
            graphics.dispose();
        }
        return image;
    }

    private static void paint(Mark mark, Graphics2D graphics) {
        if (mark instanceof Mark.Line line) {
            FigurePoint from = line.from();
            FigurePoint to = line.to();
            outline(new Line2D.Double(from.x(), from.y(), to.x(), to.y()), Optional.of(line.stroke()), graphics);
        } else if (mark instanceof Mark.Polyline polyline) {
            outline(path(polyline.points()), Optional.of(polyline.stroke()), graphics);
        } else if (mark instanceof Mark.Polygon polygon) {
            Path2D path = path(polygon.points());
            path.closePath();
            fillAndOutline(path, polygon.fill(), polygon.stroke(), graphics);
        } else if (mark instanceof Mark.Rectangle box) {
            Shape shape = new Rectangle2D.Double(box.x(), box.y(), box.width(), box.height());
            fillAndOutline(shape, box.fill(), box.stroke(), graphics);
        } else if (mark instanceof Mark.Circle circle) {
            double diameter = 2 * circle.radius();
            Shape shape = new Ellipse2D.Double(
                    circle.centre().x() - circle.radius(), circle.centre().y() - circle.radius(), diameter, diameter);
            fillAndOutline(shape, circle.fill(), circle.stroke(), graphics);
        } else if (mark instanceof Mark.Words words) {
            paint(words, graphics);
        }
    }

    private static void paint(Mark.Words words, Graphics2D graphics) {
        TextStyle style = words.style();
        int weight = style.weight() == TextStyle.Weight.STRONG ? Font.BOLD : Font.PLAIN;
        graphics.setFont(new Font(Font.SANS_SERIF, weight, 1).deriveFont((float) style.sizePx()));
        graphics.setColor(awt(style.colour()));
        double width = graphics.getFont()
                .getStringBounds(words.text(), graphics.getFontRenderContext())
                .getWidth();
        double shift =
                switch (style.anchor()) {
                    case START -> 0;
                    case MIDDLE -> width / 2;
                    case END -> width;
                };
        graphics.drawString(words.text(), (float) (words.place().x() - shift), (float)
                words.place().y());
    }

    private static void fillAndOutline(
            Shape shape, Optional<Colour> fill, Optional<Stroke> stroke, Graphics2D graphics) {
        fill.ifPresent(colour -> {
            graphics.setColor(awt(colour));
            graphics.fill(shape);
        });
        outline(shape, stroke, graphics);
    }

    private static void outline(Shape shape, Optional<Stroke> stroke, Graphics2D graphics) {
        stroke.ifPresent(value -> {
            graphics.setColor(awt(value.colour()));
            graphics.setStroke(awt(value));
            graphics.draw(shape);
        });
    }

    private static Path2D path(List<FigurePoint> points) {
        Path2D path = new Path2D.Double();
        path.moveTo(points.get(0).x(), points.get(0).y());
        points.stream().skip(1).forEach(point -> path.lineTo(point.x(), point.y()));
        return path;
    }

    private static BasicStroke awt(Stroke stroke) {
        float width = (float) stroke.widthPx();
        if (stroke.dash() == Stroke.Dash.SOLID) {
            return new BasicStroke(width, BasicStroke.CAP_BUTT, BasicStroke.JOIN_MITER);
        }
        float[] dash = {(float) stroke.dash().onPx(), (float) stroke.dash().offPx()};
        return new BasicStroke(width, BasicStroke.CAP_BUTT, BasicStroke.JOIN_MITER, 10, dash, 0);
    }

    private static Color awt(Colour colour) {
        int alpha = (int) Math.round(255 * colour.opacity());
        return new Color(alpha << 24 | colour.rgb(), true);
    }
}
