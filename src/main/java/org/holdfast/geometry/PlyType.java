package org.holdfast.geometry;

import java.nio.ByteBuffer;
import java.util.Optional;

/** A type of number in a PLY file. */
enum PlyType {
    INT8(1),
    UINT8(1),
    INT16(2),
    UINT16(2),
    INT32(4),
    UINT32(4),
    FLOAT32(4),
    FLOAT64(8);

    private final int bytes;

    PlyType(int bytes) {
        this.bytes = bytes;
    }

    int bytes() {
        return bytes;
    }

    static Optional<PlyType> of(String word) {
        return switch (word) {
            case "char", "int8" -> Optional.of(INT8);
            case "uchar", "uint8" -> Optional.of(UINT8);
            case "short", "int16" -> Optional.of(INT16);
            case "ushort", "uint16" -> Optional.of(UINT16);
            case "int", "int32" -> Optional.of(INT32);
            case "uint", "uint32" -> Optional.of(UINT32);
            case "float", "float32" -> Optional.of(FLOAT32);
            case "double", "float64" -> Optional.of(FLOAT64);
            default -> Optional.empty();
        };
    }

    double read(ByteBuffer in) {
        return switch (this) {
            case INT8 -> in.get();
            case UINT8 -> in.get() & 0xFF;
            case INT16 -> in.getShort();
            case UINT16 -> in.getShort() & 0xFFFF;
            case INT32 -> in.getInt();
            case UINT32 -> Integer.toUnsignedLong(in.getInt());
            case FLOAT32 -> in.getFloat();
            case FLOAT64 -> in.getDouble();
        };
    }
}
