package org.holdfast.dicom;

import java.io.EOFException;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.channels.FileChannel;
import java.nio.file.StandardOpenOption;

/**
 * Pixels as they are (PS3.5, section 8.1.1): 1, 8, 16 or 32 bits a sample, either byte order, or deflated as a whole.
 *
 * <p>Of 32 bits in a big endian file the highest byte comes first. Toolkits disagree here, as OW is turned by pairs
 * of bytes: some write the lower pair first. Public files have the whole value turned, as machines of that order wrote it.
 */
final class UncompressedCodec implements PixelCodec {

    @Override
    public boolean reads(PixelSource source) {
        int bits = source.layout().bitsAllocated();
        // In subsampled colour two pixels share samples (PS3.3, C.7.6.3.1.2): another arrangement of bytes.
        boolean subsampled = source.layout().photometric().matches("YBR_.*_42[02]");
        return !subsampled
                && !source.transferSyntax().encapsulated()
                && source.location().length() >= 0
                && source.location().tag() == Tag.PIXEL_DATA
                && (bits == 1 || bits == 8 || bits == 16 || bits == 32);
    }

    @Override
    public int read(PixelSource source, int frameIndex, short[] words, PixelReader.Scratch scratch)
            throws IOException, DicomReadException {
        PixelLayout layout = source.layout();
        long firstBit = Math.multiplyExact(layout.frameBits(), (long) frameIndex);
        long bits = Math.min(layout.frameBits(), source.availableBytes() * 8 - firstBit);
        if (bits <= 0) {
            return 0;
        }
        // Bytes are turned in pairs where 8-bit samples are written as big endian words, so pairs are read whole.
        long firstByte = firstBit / 16 * 2;
        long lastByte = Math.min((firstBit + bits + 15) / 16 * 2, source.availableBytes());
        ByteBuffer bytes = scratch.ofSize(Math.toIntExact(lastByte - firstByte));
        fill(source, source.location().offset() + firstByte, bytes, scratch);
        int shift = (int) (firstBit - firstByte * 8);
        int count = (int) (bits / layout.bitsAllocated());
        unpack(source, bytes, shift, words, count);
        int unused = layout.highBit() + 1 - layout.bitsStored();
        for (int i = 0; unused > 0 && i < count; i++) {
            words[i] = (short) ((words[i] & 0xFFFF) >>> unused);
        }
        return count;
    }

    @Override
    public int readWide(PixelSource source, int frameIndex, int[] values, PixelReader.Scratch scratch)
            throws IOException, DicomReadException {
        PixelLayout layout = source.layout();
        long first = Math.multiplyExact(layout.frameValues() * 4, (long) frameIndex);
        int count = (int) Math.min(layout.frameValues(), Math.max(0, source.availableBytes() - first) / 4);
        if (count == 0) {
            return 0;
        }
        ByteBuffer bytes = scratch.ofSize(Math.multiplyExact(4, count));
        fill(source, source.location().offset() + first, bytes, scratch);
        bytes.order(source.transferSyntax().bigEndian() ? ByteOrder.BIG_ENDIAN : ByteOrder.LITTLE_ENDIAN)
                .asIntBuffer()
                .get(values, 0, count);
        PixelCodec.mask(layout, values, count);
        return count;
    }

    private static void unpack(PixelSource source, ByteBuffer bytes, int firstBit, short[] words, int count) {
        boolean bigEndian = source.transferSyntax().bigEndian();
        if (source.layout().bitsAllocated() == 16) {
            bytes.order(bigEndian ? ByteOrder.BIG_ENDIAN : ByteOrder.LITTLE_ENDIAN)
                    .asShortBuffer()
                    .get(words, 0, count);
            return;
        }
        int swap = bigEndian && source.location().vr() == Vr.OW ? 1 : 0;
        int last = bytes.limit() - 1;
        if (source.layout().bitsAllocated() == 8) {
            for (int i = 0; i < count; i++) {
                words[i] = (short) (bytes.get(Math.min((i + firstBit / 8) ^ swap, last)) & 0xFF);
            }
            return;
        }
        for (int i = 0; i < count; i++) {
            int bit = i + firstBit;
            words[i] = (short) (bytes.get(Math.min((bit / 8) ^ swap, last)) >> (bit % 8) & 1);
        }
    }

    private static void fill(PixelSource source, long offset, ByteBuffer into, PixelReader.Scratch scratch)
            throws IOException, DicomReadException {
        try (FileChannel channel = FileChannel.open(source.path(), StandardOpenOption.READ)) {
            if (source.transferSyntax().deflated()) {
                byte[] inflated = scratch.inflated(source, channel);
                if (offset + into.remaining() > inflated.length) {
                    throw new EOFException("the file changed after its header was read");
                }
                into.put(inflated, Math.toIntExact(offset), into.remaining()).flip();
                return;
            }
            while (into.hasRemaining()) {
                if (channel.read(into, offset + into.position()) < 0) {
                    throw new EOFException("the file became shorter after its header was read");
                }
            }
            into.flip();
        }
    }
}
