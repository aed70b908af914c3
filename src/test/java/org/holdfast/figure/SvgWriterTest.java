package org.holdfast.figure;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import javax.xml.parsers.DocumentBuilderFactory;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.w3c.dom.Document;
import org.w3c.dom.Element;

final class SvgWriterTest {

    private static final Colour RED = Colour.of(0xC00000);

    @Test
    void writesEveryKindOfMarkAsItsElement() throws Exception {
        List<FigurePoint> corners = List.of(new FigurePoint(0, 0), new FigurePoint(4, 0), new FigurePoint(4, 3));
        Drawing drawing = new Drawing.Builder()
                .line(1, 2, 3.5, 4, Stroke.of(RED, 1.5).with(Stroke.Dash.DASHED))
                .add(new Mark.Polyline(corners, Stroke.of(RED, 1)))
                .add(new Mark.Polygon(corners, Optional.of(RED.withOpacity(0.25)), Optional.empty()))
                .fill(1, 1, 2, 3, RED)
                .ring(5, 5, 2, Stroke.of(RED, 1))
                .words(2, 9, "12 mo", TextStyle.of(11, RED).strong().at(TextStyle.Anchor.END))
                .build(20, 10, "trial", Colour.of(0xFFFFFF));
        Document document = parsed(SvgWriter.svg(drawing));
        Element line = only(document, "line");
        assertEquals("3.5", line.getAttribute("x2"));
        assertEquals("#c00000", line.getAttribute("stroke"));
        assertEquals("5 4", line.getAttribute("stroke-dasharray"));
        assertEquals("0,0 4,0 4,3", only(document, "polyline").getAttribute("points"));
        assertEquals("none", only(document, "polyline").getAttribute("fill"));
        assertEquals("0.25", only(document, "polygon").getAttribute("fill-opacity"));
        assertEquals("none", only(document, "circle").getAttribute("fill"));
        Element text = only(document, "text");
        assertEquals("12 mo", text.getTextContent());
        assertEquals("end", text.getAttribute("text-anchor"));
        assertEquals("600", text.getAttribute("font-weight"));
        // By hand: the ground and the one filled rectangle.
        assertEquals(2, document.getElementsByTagName("rect").getLength());
        assertEquals("0 0 20 10", document.getDocumentElement().getAttribute("viewBox"));
        assertEquals("trial", only(document, "title").getTextContent());
    }

    @Test
    void escapesWhatXmlReservesAndReplacesWhatItForbids() throws Exception {
        String text = "T12 & <L1> \"a\" \u0000\u0007 ≥ 1.2 \uD800 \uD83E\uDDB4";
        Drawing drawing =
                new Drawing.Builder().words(0, 5, text, TextStyle.of(11, RED)).build(10, 10, text, RED);
        Document document = parsed(SvgWriter.svg(drawing));
        String expected = "T12 & <L1> \"a\" \uFFFD\uFFFD ≥ 1.2 \uFFFD \uD83E\uDDB4";
        assertEquals(expected, only(document, "text").getTextContent());
        assertEquals(expected, only(document, "title").getTextContent());
    }

    @Test
    void writesNumbersWithAPointInEveryLocale() {
        Locale before = Locale.getDefault();
        try {
            Locale.setDefault(Locale.GERMANY);
            Drawing drawing = new Drawing.Builder()
                    .line(-0.0001, 0.5, 1000, 0.12349, Stroke.of(RED, 1))
                    .build(1234.5, 10, "", RED);
            String svg = SvgWriter.svg(drawing);
            assertTrue(svg.contains("x1=\"0\" y1=\"0.5\" x2=\"1000\" y2=\"0.123\""), svg);
            assertTrue(svg.contains("width=\"1234.5\""), svg);
        } finally {
            Locale.setDefault(before);
        }
    }

    @Test
    void writesWholeFiguresThatParse(@TempDir Path folder) throws Exception {
        Path file = folder.resolve("course.svg");
        SvgWriter.write(CourseChart.draw(SampleCourse.course()), file);
        Document document = parsed(Files.readString(file, StandardCharsets.UTF_8));
        assertTrue(document.getElementsByTagName("text").getLength() > 30);
        parsed(SvgWriter.svg(FaceMap.draw(SampleFace.face())));
    }

    private static Document parsed(String svg) throws Exception {
        try {
            return DocumentBuilderFactory.newInstance()
                    .newDocumentBuilder()
                    .parse(new ByteArrayInputStream(svg.getBytes(StandardCharsets.UTF_8)));
        } catch (IOException e) {
            throw new AssertionError(svg, e);
        }
    }

    private static Element only(Document document, String name) {
        assertEquals(1, document.getElementsByTagName(name).getLength(), name);
        return (Element) document.getElementsByTagName(name).item(0);
    }
}
