package org.holdfast.geometry;

import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;

/** The numbers behind a PLY header, one after the other. */
abstract sealed class PlyNumbers {

    /** The next number. */
    abstract double next(PlyType type) throws MeshReadException;

    /** Refuses a count of rows that cannot be in what is left, before anything is made for them. */
    abstract void requireRows(int rows, int leastBytesOfRow) throws MeshReadException;

    /** Where the reading is, in words. */
    abstract String place();

    /** Numbers as text, parted by white space. */
    static final class Text extends PlyNumbers {
        private final byte[] bytes;
        private final String name;
        private int at;

        Text(byte[] bytes, int at, String name) {
            this.bytes = bytes;
            this.at = at;
            this.name = name;
        }

        @Override
        double next(PlyType type) throws MeshReadException {
            while (at < bytes.length && bytes[at] <= ' ') {
                at++;
            }
            int from = at;
            while (at < bytes.length && bytes[at] > ' ') {
                at++;
            }
            String word = new String(bytes, from, Math.min(at - from, 60), StandardCharsets.ISO_8859_1);
            try {
                return Double.parseDouble(word);
            } catch (NumberFormatException e) {
                throw new MeshReadException(
                        name, place(), "a number", word.isEmpty() ? "the end of the file" : word, e);
            }
        }

        @Override
        void requireRows(int rows, int leastBytesOfRow) throws MeshReadException {
            // A number of text takes a digit and a space.
            if (rows > (bytes.length - at + 1L) / 2) {
                throw new MeshReadException(name, place(), rows + " rows", (bytes.length - at) + " bytes left", null);
            }
        }

        @Override
        String place() {
            return "byte " + at;
        }
    }

    /** Numbers as bytes. */
    static final class Binary extends PlyNumbers {
        private final ByteBuffer in;
        private final String name;

        Binary(byte[] bytes, int at, ByteOrder order, String name) {
            this.in = ByteBuffer.wrap(bytes).order(order);
            this.in.position(at);
            this.name = name;
        }

        @Override
        double next(PlyType type) throws MeshReadException {
            if (in.remaining() < type.bytes()) {
                throw new MeshReadException(name, place(), type.bytes() + " bytes", in.remaining() + " left", null);
            }
            return type.read(in);
        }

        @Override
        void requireRows(int rows, int leastBytesOfRow) throws MeshReadException {
            long needed = (long) rows * Math.max(1, leastBytesOfRow);
            if (needed > in.remaining()) {
                throw new MeshReadException(
                        name, place(), rows + " rows, " + needed + " bytes", in.remaining() + " bytes left", null);
            }
        }

        @Override
        String place() {
            return "byte " + in.position();
        }
    }
}
