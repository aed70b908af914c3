package org.holdfast.figure;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Collectors;

/** Writes a drawing as SVG 1.1: text stays text, lengths are logical pixels. Stateless. */
public final class SvgWriter {

    private static final String FONTS = "'Noto Sans', 'DejaVu Sans', Helvetica, Arial, sans-serif";

    private SvgWriter() {}

    /** Writes the drawing to a file in UTF-8, over what is there. */
    public static void write(Drawing drawing, Path file) throws IOException {
        Files.writeString(file, svg(drawing), StandardCharsets.UTF_8);
    }

    /** The drawing as a complete SVG document. */
    public static String svg(Drawing drawing) {
        StringBuilder svg = new StringBuilder("<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n");
        String width = number(drawing.widthPx());
        String height = number(drawing.heightPx());
        svg.append("<svg xmlns=\"http://www.w3.org/2000/svg\" version=\"1.1\" width=\"%s\" height=\"%s\""
                .formatted(width, height));
        svg.append(" viewBox=\"0 0 %s %s\" font-family=\"%s\" role=\"img\">\n".formatted(width, height, FONTS));
        svg.append("<title>").append(escaped(drawing.title())).append("</title>\n");
        svg.append("<rect width=\"100%\" height=\"100%\"")
                .append(fill(Optional.of(drawing.ground())))
                .append("/>\n");
        for (Mark mark : drawing.marks()) {
            svg.append(element(mark)).append('\n');
        }
        return svg.append("</svg>\n").toString();
    }

    private static String element(Mark mark) {
        if (mark instanceof Mark.Line line) {
            return "<line x1=\"%s\" y1=\"%s\" x2=\"%s\" y2=\"%s\"%s/>"
                    .formatted(
                            number(line.from().x()),
                            number(line.from().y()),
                            number(line.to().x()),
                            number(line.to().y()),
                            stroke(Optional.of(line.stroke())));
        }
        if (mark instanceof Mark.Polyline polyline) {
            return "<polyline points=\"%s\" fill=\"none\"%s/>"
                    .formatted(points(polyline.points()), stroke(Optional.of(polyline.stroke())));
        }
        if (mark instanceof Mark.Polygon polygon) {
            return "<polygon points=\"%s\"%s%s/>"
                    .formatted(points(polygon.points()), fill(polygon.fill()), stroke(polygon.stroke()));
        }
        if (mark instanceof Mark.Rectangle box) {
            return "<rect x=\"%s\" y=\"%s\" width=\"%s\" height=\"%s\"%s%s/>"
                    .formatted(
                            number(box.x()),
                            number(box.y()),
                            number(box.width()),
                            number(box.height()),
                            fill(box.fill()),
                            stroke(box.stroke()));
        }
        if (mark instanceof Mark.Circle circle) {
            return "<circle cx=\"%s\" cy=\"%s\" r=\"%s\"%s%s/>"
                    .formatted(
                            number(circle.centre().x()),
                            number(circle.centre().y()),
                            number(circle.radius()),
                            fill(circle.fill()),
                            stroke(circle.stroke()));
        }
        return text((Mark.Words) mark);
    }

    private static String text(Mark.Words words) {
        TextStyle style = words.style();
        String weight = style.weight() == TextStyle.Weight.STRONG ? " font-weight=\"600\"" : "";
        String anchor = style.anchor() == TextStyle.Anchor.START
                ? ""
                : " text-anchor=\"" + style.anchor().name().toLowerCase(Locale.ROOT) + "\"";
        return "<text x=\"%s\" y=\"%s\" font-size=\"%s\"%s%s%s>%s</text>"
                .formatted(
                        number(words.place().x()),
                        number(words.place().y()),
                        number(style.sizePx()),
                        weight,
                        anchor,
                        fill(Optional.of(style.colour())),
                        escaped(words.text()));
    }

    private static String fill(Optional<Colour> colour) {
        return colour.map(value -> " fill=\"" + value.hex() + "\"" + opacity("fill-opacity", value))
                .orElse(" fill=\"none\"");
    }

    private static String stroke(Optional<Stroke> stroke) {
        return stroke.map(value -> " stroke=\"%s\"%s stroke-width=\"%s\"%s"
                        .formatted(
                                value.colour().hex(),
                                opacity("stroke-opacity", value.colour()),
                                number(value.widthPx()),
                                dash(value.dash())))
                .orElse("");
    }

    private static String dash(Stroke.Dash dash) {
        return dash == Stroke.Dash.SOLID
                ? ""
                : " stroke-dasharray=\"%s %s\"".formatted(number(dash.onPx()), number(dash.offPx()));
    }

    private static String opacity(String attribute, Colour colour) {
        return colour.opacity() == 1 ? "" : " %s=\"%s\"".formatted(attribute, number(colour.opacity()));
    }

    private static String points(List<FigurePoint> points) {
        return points.stream()
                .map(point -> number(point.x()) + "," + number(point.y()))
                .collect(Collectors.joining(" "));
    }

    /** At most three decimals, which is far below a device pixel, and none that say nothing. */
    private static String number(double value) {
        String text = String.format(Locale.ROOT, "%.3f", value);
        String shorter = text.replaceAll("0+$", "").replaceAll("\\.$", "");
        return shorter.equals("-0") ? "0" : shorter;
    }

    /** Text for an element's content; characters that XML 1.0 does not allow become U+FFFD. */
    private static String escaped(String text) {
        StringBuilder escaped = new StringBuilder();
        text.codePoints().forEach(code -> {
            switch (code) {
                case '&' -> escaped.append("&amp;");
                case '<' -> escaped.append("&lt;");
                case '>' -> escaped.append("&gt;");
                default -> escaped.appendCodePoint(isXmlCharacter(code) ? code : 0xFFFD);
            }
        });
        return escaped.toString();
    }

    /** The production Char of XML 1.0 (fifth edition), section 2.2. */
    private static boolean isXmlCharacter(int code) {
        return code == 0x9
                || code == 0xA
                || code == 0xD
                || code >= 0x20 && code <= 0xD7FF
                || code >= 0xE000 && code <= 0xFFFD
                || code >= 0x10000;
    }
}
