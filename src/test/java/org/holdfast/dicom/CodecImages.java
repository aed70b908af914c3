package org.holdfast.dicom;

import java.io.IOException;
import java.nio.file.Path;
import java.util.Random;
import java.util.function.IntBinaryOperator;

/** Images of our own that codecs are tried on: secondary captures with any layout and content. */
final class CodecImages {

    private CodecImages() {}

    /** What an image shows. */
    enum Content {
        /** One value: runs up to the end of the row, in every row. */
        CONSTANT,
        /** Steps with flat ground between: runs that are interrupted. */
        STEPS,
        /** Slopes with a little noise: ordinary contexts. */
        SLOPES,
        /** Any bits at all: long codes. */
        NOISE
    }

    static PixelLayout grey(int rows, int columns, int bitsStored, boolean signed) {
        int allocated = bitsStored > 8 ? 16 : 8;
        return new PixelLayout(rows, columns, 1, 1, allocated, bitsStored, bitsStored - 1, signed, "MONOCHROME2");
    }

    static PixelLayout colour(int rows, int columns, int samples) {
        return new PixelLayout(rows, columns, 1, samples, 8, 8, 7, false, samples == 3 ? "RGB" : "CMYK");
    }

    /** Words of all frames; values below zero are written in the stored bits only. */
    static short[] words(PixelLayout layout, Content content) {
        Random random = new Random(20_250_301L + content.ordinal());
        int span = 1 << layout.bitsStored();
        int mask = span - 1;
        IntBinaryOperator value = value(content, span, random);
        short[] words = new short[Math.toIntExact(layout.frameValues() * layout.frames())];
        for (int i = 0; i < words.length; i++) {
            int pixel = i / layout.samples();
            int sample = i % layout.samples();
            int here = value.applyAsInt(pixel % layout.columns() + 5 * sample, pixel / layout.columns());
            words[i] = (short) (here - (layout.signed() ? span / 4 : 0) & mask);
        }
        return words;
    }

    private static IntBinaryOperator value(Content content, int span, Random random) {
        return switch (content) {
            case CONSTANT -> (x, y) -> span / 3;
            case STEPS -> (x, y) -> (x / 17 + y / 9) % 3 * (span / 4) + (x % 23 == 0 ? 1 : 0);
            case SLOPES -> (x, y) -> span / 2 + (x - y) * span / 400 + random.nextInt(1 + span / 64);
            case NOISE -> (x, y) -> random.nextInt(span);
        };
    }

    static DataSet.Builder dataSet(PixelLayout layout, short[] words) {
        DataSet.Builder d = DataSet.builder()
                .string(Tag.SOP_CLASS_UID, "1.2.840.10008.5.1.4.1.1.7")
                .string(Tag.SOP_INSTANCE_UID, Uid.fromName("codec"))
                .string(Tag.STUDY_INSTANCE_UID, Uid.fromName("codec study"))
                .string(Tag.SERIES_INSTANCE_UID, Uid.fromName("codec series"))
                .string(Tag.MODALITY, "OT")
                .integers(Tag.SAMPLES_PER_PIXEL, layout.samples())
                .string(Tag.PHOTOMETRIC_INTERPRETATION, layout.photometric())
                .integers(Tag.NUMBER_OF_FRAMES, layout.frames())
                .integers(Tag.ROWS, layout.rows())
                .integers(Tag.COLUMNS, layout.columns())
                .integers(Tag.BITS_ALLOCATED, layout.bitsAllocated())
                .integers(Tag.BITS_STORED, layout.bitsStored())
                .integers(Tag.HIGH_BIT, layout.highBit())
                .integers(Tag.PIXEL_REPRESENTATION, layout.signed() ? 1 : 0);
        if (layout.samples() > 1) {
            d.integers(0x00280006, 0);
        }
        if (layout.bitsAllocated() == 16) {
            return d.words(Tag.PIXEL_DATA, words);
        }
        byte[] bytes = new byte[words.length + words.length % 2];
        for (int i = 0; i < words.length; i++) {
            bytes[i] = (byte) words[i];
        }
        return d.bytes(Tag.PIXEL_DATA, Vr.OB, bytes);
    }

    static Path write(Path file, PixelLayout layout, short[] words) throws IOException {
        DicomWriter.write(file, dataSet(layout, words).build(), TransferSyntax.EXPLICIT_LITTLE_ENDIAN);
        return file;
    }

    /** Stored values of all frames of a file: only the bits that count, with their sign. */
    static int[] values(Path file) throws DicomReadException {
        PixelSource source = PixelSource.of(DicomReader.read(file));
        PixelLayout layout = source.layout();
        short[] words = new short[Math.toIntExact(layout.frameValues())];
        int unused = Integer.SIZE - layout.bitsStored();
        int[] values = new int[words.length * layout.frames()];
        PixelReader reader = new PixelReader();
        for (int frame = 0; frame < layout.frames(); frame++) {
            int count = reader.read(source, frame, words);
            if (count != words.length) {
                throw new IllegalStateException(count + " of " + words.length + " words in " + file);
            }
            for (int i = 0; i < count; i++) {
                values[frame * count + i] =
                        layout.signed() ? words[i] << unused >> unused : words[i] << unused >>> unused;
            }
        }
        return values;
    }
}
