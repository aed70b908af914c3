package org.holdfast.figure;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.awt.image.BufferedImage;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import javax.imageio.ImageIO;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

final class PngWriterTest {

    private static final Colour WHITE = Colour.of(0xFFFFFF);
    private static final Colour BLUE = Colour.of(0x00627F);

    @Test
    void paintsEveryKindOfMarkWhereItLies() {
        List<FigurePoint> corners = List.of(new FigurePoint(30, 0), new FigurePoint(40, 0), new FigurePoint(40, 10));
        Drawing drawing = new Drawing.Builder()
                .fill(0, 0, 10, 10, BLUE)
                .disc(20, 5, 5, BLUE)
                .add(new Mark.Polygon(corners, Optional.of(BLUE), Optional.empty()))
                .line(0, 15, 40, 15, Stroke.of(BLUE, 2))
                .build(41, 20, "trial", WHITE);
        BufferedImage image = PngWriter.image(drawing, 2);
        assertEquals(82, image.getWidth());
        assertEquals(40, image.getHeight());
        // By hand: device pixels are twice the logical ones; a pixel inside, then one outside of each mark.
        assertEquals(0x00627F, rgb(image, 10, 10));
        assertEquals(0xFFFFFF, rgb(image, 24, 10));
        assertEquals(0x00627F, rgb(image, 40, 10));
        assertEquals(0xFFFFFF, rgb(image, 30, 0));
        assertEquals(0x00627F, rgb(image, 76, 4));
        assertEquals(0xFFFFFF, rgb(image, 64, 16));
        assertEquals(0x00627F, rgb(image, 40, 30));
        assertEquals(0xFFFFFF, rgb(image, 40, 36));
    }

    @Test
    void mixesTranslucentColoursWithTheGround() {
        Drawing drawing = new Drawing.Builder()
                .fill(0, 0, 10, 10, Colour.of(0x000000).withOpacity(0.2))
                .build(10, 10, "trial", WHITE);
        // By hand: 255 · (1 − 0.2) = 204 = 0xCC, to within the rounding of 8-bit alpha.
        assertEquals(204, rgb(PngWriter.image(drawing, 1), 5, 5) & 0xFF, 1);
    }

    @Test
    void setsWordsToTheSideThatTheirAnchorSays() {
        Drawing drawing = new Drawing.Builder()
                .words(100, 20, "12 mo", TextStyle.of(16, BLUE).at(TextStyle.Anchor.END))
                .words(100, 60, "12 mo", TextStyle.of(16, BLUE))
                .build(200, 80, "trial", WHITE);
        BufferedImage image = PngWriter.image(drawing, 1);
        assertTrue(inked(image, 0, 0, 100, 40) > 0);
        assertEquals(0, inked(image, 101, 0, 200, 40));
        assertTrue(inked(image, 100, 41, 200, 80) > 0);
        assertEquals(0, inked(image, 0, 41, 99, 80));
    }

    @Test
    void writesAFileThatReadsBack(@TempDir Path folder) throws Exception {
        Path file = folder.resolve("course.png");
        Drawing drawing = CourseChart.draw(SampleCourse.course());
        PngWriter.write(drawing, 1, file);
        BufferedImage read = ImageIO.read(file.toFile());
        assertEquals((int) Math.ceil(drawing.widthPx()), read.getWidth());
        assertEquals((int) Math.ceil(drawing.heightPx()), read.getHeight());
    }

    @Test
    void saysWhenTheFolderIsMissing(@TempDir Path folder) {
        Path file = folder.resolve("nowhere/course.png");
        Drawing drawing = new Drawing(10, 10, "trial", WHITE, List.of());
        assertThrows(NoSuchFileException.class, () -> PngWriter.write(drawing, 1, file));
        assertThrows(IllegalArgumentException.class, () -> PngWriter.write(drawing, 0, file));
    }

    private static int rgb(BufferedImage image, int x, int y) {
        return image.getRGB(x, y) & 0xFFFFFF;
    }

    private static int inked(BufferedImage image, int left, int top, int right, int bottom) {
        int count = 0;
        for (int y = top; y < bottom; y++) {
            for (int x = left; x < right; x++) {
                count += (image.getRGB(x, y) & 0xFFFFFF) == 0xFFFFFF ? 0 : 1;
            }
        }
        return count;
    }
}
