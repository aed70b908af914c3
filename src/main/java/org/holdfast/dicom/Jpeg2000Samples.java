package org.holdfast.dicom;

import com.github.jaiimageio.jpeg2000.impl.J2KImageReadParamJava;
import java.io.IOException;
import jj2000.j2k.codestream.HeaderInfo;
import jj2000.j2k.codestream.reader.BitstreamReaderAgent;
import jj2000.j2k.codestream.reader.HeaderDecoder;
import jj2000.j2k.decoder.DecoderSpecs;
import jj2000.j2k.image.BlkImgDataSrc;
import jj2000.j2k.image.DataBlkInt;
import jj2000.j2k.image.ImgDataConverter;
import jj2000.j2k.image.invcomptransf.InvCompTransf;
import jj2000.j2k.util.FacilityManager;
import jj2000.j2k.util.MsgLogger;
import jj2000.j2k.wavelet.synthesis.InverseWT;

/**
 * The library's chain from a codestream to samples: packets, entropy decoder, region of interest, quantization, wavelets,
 * rounding, component transform. One codestream, one thread.
 */
final class Jpeg2000Samples {

    static {
        FacilityManager.registerMsgLogger(null, new Silence());
    }

    private final Jpeg2000Size size;
    private final HeaderDecoder header;
    private final BlkImgDataSrc source;

    /** The library warns on the standard error of what it then decodes or fails at. */
    private static final class Silence implements MsgLogger {
        @Override
        public void printmsg(int severity, String message) {}

        @Override
        public void println(String text, int firstIndent, int indent) {}

        @Override
        public void flush() {}
    }

    Jpeg2000Samples(byte[] frame, Jpeg2000Size size) throws IOException {
        this.size = size;
        Jpeg2000Input in = new Jpeg2000Input(frame, size.start());
        J2KImageReadParamJava options = new J2KImageReadParamJava();
        HeaderInfo info = new HeaderInfo();
        this.header = new HeaderDecoder(in, options, info);
        DecoderSpecs specs = header.getDecoderSpecs();
        int[] depths = new int[header.getNumComps()];
        for (int c = 0; c < depths.length; c++) {
            depths[c] = header.getOriginalBitDepth(c);
        }
        BitstreamReaderAgent packets = BitstreamReaderAgent.createInstance(in, header, options, specs, false, info);
        InverseWT wavelets = InverseWT.createInstance(
                header.createDequantizer(
                        header.createROIDeScaler(header.createEntropyDecoder(packets, options), options, specs),
                        depths,
                        specs),
                specs);
        wavelets.setImgResLevel(packets.getImgRes());
        this.source = new InvCompTransf(new ImgDataConverter(wavelets, 0), specs, depths);
    }

    /**
     * Decodes all tiles.
     *
     * @param signExtended whether unsigned samples are two's complement of their precision
     */
    void read(short[] words, boolean signExtended) {
        int tiles = source.getNumTiles();
        for (int tile = 0; tile < tiles; tile++) {
            if (tile == 0) {
                source.setTile(0, 0);
            } else {
                source.nextTile();
            }
            for (int c = 0; c < size.components(); c++) {
                readTile(c, words, signExtended);
            }
        }
    }

    private void readTile(int component, short[] words, boolean signExtended) {
        int tile = source.getTileIdx();
        int width = source.getTileCompWidth(tile, component);
        int height = source.getTileCompHeight(tile, component);
        DataBlkInt block = new DataBlkInt(0, 0, width, height);
        do {
            block = (DataBlkInt) source.getInternCompData(block, component);
        } while (block.progressive);
        int left = source.getCompULX(component) - header.getImgULX();
        int top = source.getCompULY(component) - header.getImgULY();
        Levels levels = new Levels(size.precision(), size.signed(), signExtended);
        for (int row = 0; row < height; row++) {
            int from = block.offset + row * block.scanw;
            int to = (int) (((top + row) * size.columns() + left) * size.components()) + component;
            for (int column = 0; column < width; column++, to += size.components()) {
                words[to] = levels.word(block.data[from + column]);
            }
        }
    }

    /** From samples around 0 to words (ISO/IEC 15444-1, G.1.2). */
    private record Levels(int shift, int lowest, int highest, int unusedBits) {

        Levels(int precision, boolean signed, boolean signExtended) {
            this(
                    signed ? 0 : 1 << (precision - 1),
                    signed ? -(1 << (precision - 1)) : 0,
                    signed ? (1 << (precision - 1)) - 1 : (1 << precision) - 1,
                    signExtended ? Integer.SIZE - precision : 0);
        }

        short word(int sample) {
            // With loss a sample can come out beyond its range.
            int inRange = Math.max(lowest, Math.min(highest, sample + shift));
            return (short) (inRange << unusedBits >> unusedBits);
        }
    }
}
