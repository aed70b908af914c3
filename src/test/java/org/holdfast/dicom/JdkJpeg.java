package org.holdfast.dicom;

import java.awt.image.BufferedImage;
import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.util.Random;
import javax.imageio.ImageIO;

/** Baseline JPEG by the platform's encoder and decoder, an implementation apart from ours. */
final class JdkJpeg {

    private JdkJpeg() {}

    /** A picture with edges and noise: grey, or colour with a quarter of its chrominance. */
    static byte[] encode(int rows, int columns, boolean colour, long seed) {
        Random random = new Random(seed);
        BufferedImage image =
                new BufferedImage(columns, rows, colour ? BufferedImage.TYPE_INT_RGB : BufferedImage.TYPE_BYTE_GRAY);
        for (int y = 0; y < rows; y++) {
            for (int x = 0; x < columns; x++) {
                for (int band = 0; band < image.getRaster().getNumBands(); band++) {
                    int value = 3 * x + 2 * y + (x / 5 + y / 7 + band) % 2 * 90 + random.nextInt(20);
                    image.getRaster().setSample(x, y, band, value & 0xFF);
                }
            }
        }
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        try {
            ImageIO.write(image, "jpeg", out);
        } catch (IOException e) {
            throw new AssertionError(e);
        }
        return out.toByteArray();
    }

    /** Samples of a grey stream. */
    static int[] decodeGrey(byte[] stream) throws IOException {
        BufferedImage image = ImageIO.read(new ByteArrayInputStream(stream));
        return image.getRaster().getSamples(0, 0, image.getWidth(), image.getHeight(), 0, (int[]) null);
    }
}
