package org.holdfast.dicom;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.stream.Stream;
import org.holdfast.cases.CaseFiles;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** Pixel data behind another header: every byte of the frames, in their transfer syntax, and nothing else. */
final class PixelCopyTest {

    @TempDir
    Path folder;

    static Stream<TransferSyntax> uncompressed() {
        return Stream.of(
                TransferSyntax.IMPLICIT_LITTLE_ENDIAN,
                TransferSyntax.EXPLICIT_LITTLE_ENDIAN,
                TransferSyntax.EXPLICIT_BIG_ENDIAN,
                TransferSyntax.DEFLATED_EXPLICIT_LITTLE_ENDIAN);
    }

    @ParameterizedTest
    @MethodSource("uncompressed")
    void uncompressedPixelsStayWhatTheyAre(TransferSyntax syntax) throws Exception {
        Path from = folder.resolve("from.dcm");
        DicomWriter.write(from, DicomWriterTest.everyKindOfValue(), syntax);
        DicomFile source = DicomReader.read(from);
        Path to = copy(source);
        DicomFile read = DicomReader.read(to);
        assertEquals(syntax, read.transferSyntax());
        assertArrayEquals(pixels(source), pixels(read));
        assertEquals(source.withPixels().describe(), read.withPixels().describe());
    }

    @Test
    void fragmentsStayWhatTheyAre() throws Exception {
        int compressed = 0;
        List<Path> files;
        try (Stream<Path> all = Files.walk(CaseFiles.folder())) {
            files = all.filter(Files::isRegularFile).toList();
        }
        for (Path path : files) {
            DicomFile source = readOrNull(path);
            boolean fragments = source != null
                    && source.transferSyntax().encapsulated()
                    && source.pixels().isPresent()
                    && source.dataSet().string(Tag.SOP_CLASS_UID).isPresent();
            if (!fragments) {
                continue;
            }
            byte[] there = fragmentBytes(source, path);
            Path to = copy(source);
            assertArrayEquals(there, fragmentBytes(DicomReader.read(to), to), path.toString());
            compressed++;
        }
        assertTrue(compressed >= 15, "only " + compressed + " compressed files");
    }

    @Test
    void whatStandsBehindTheFramesIsLeftBehind() throws Exception {
        DataSet longer = DicomWriterTest.everyKindOfValue().toBuilder()
                .bytes(Tag.PIXEL_DATA, Vr.OW, Arrays.copyOf(new byte[] {1, 2, 3, 4}, 40))
                .build();
        Path from = folder.resolve("from.dcm");
        DicomWriter.write(from, longer, TransferSyntax.EXPLICIT_LITTLE_ENDIAN);
        byte[] bytes = Files.readAllBytes(from);
        Files.write(from, Arrays.copyOf(bytes, bytes.length + 100));
        DicomFile source = DicomReader.read(from);
        assertTrue(PixelCopy.of(source).leavesExcessBehind());
        DicomFile read = DicomReader.read(copy(source));
        // By hand: 3 rows of 4 pixels of 2 bytes.
        assertEquals(24, read.pixels().orElseThrow().length());
        assertEquals(24, read.pixels().orElseThrow().available());
    }

    @Test
    void cutPixelsAreRefused() throws Exception {
        Path from = folder.resolve("from.dcm");
        DicomWriter.write(from, DicomWriterTest.everyKindOfValue(), TransferSyntax.EXPLICIT_LITTLE_ENDIAN);
        byte[] bytes = Files.readAllBytes(from);
        Files.write(from, Arrays.copyOf(bytes, bytes.length - 2));
        DicomFile source = DicomReader.read(from);
        DicomReadException refused = assertThrows(DicomReadException.class, () -> PixelCopy.of(source));
        assertTrue(refused.reason().contains("24 bytes of pixel data"), refused.reason());
    }

    @Test
    void aHeaderWithPixelsOfItsOwnIsRefused() throws Exception {
        Path from = folder.resolve("from.dcm");
        DicomWriter.write(from, DicomWriterTest.everyKindOfValue(), TransferSyntax.EXPLICIT_LITTLE_ENDIAN);
        PixelCopy pixels = PixelCopy.of(DicomReader.read(from));
        Path to = folder.resolve("to.dcm");
        assertThrows(
                IllegalArgumentException.class,
                () -> DicomWriter.write(to, DicomWriterTest.everyKindOfValue(), pixels));
        assertFalse(Files.exists(to));
    }

    private Path copy(DicomFile source) throws Exception {
        Path to = folder.resolve("to.dcm");
        DicomWriter.write(to, source.dataSet(), PixelCopy.of(source));
        return to;
    }

    private static byte[] pixels(DicomFile file) throws Exception {
        return file.pixelBytes(0, (int) file.pixels().orElseThrow().length());
    }

    /** All items from the offset table to the end mark. */
    private static byte[] fragmentBytes(DicomFile file, Path path) throws Exception {
        byte[] all = Files.readAllBytes(path);
        ByteSource source = ByteSource.of(all);
        long start = file.pixels().orElseThrow().offset();
        long at = start;
        while (all.length - at >= 8 && source.tag(at, false) == Tag.ITEM) {
            at += 8 + source.unsignedInt(at + 4, false);
        }
        return Arrays.copyOfRange(all, (int) start, (int) at);
    }

    private static DicomFile readOrNull(Path path) {
        try {
            return DicomReader.read(path);
        } catch (DicomReadException e) {
            return null;
        }
    }
}
