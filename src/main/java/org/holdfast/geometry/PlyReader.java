package org.holdfast.geometry;

import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/** Reads PLY: the header tells which elements follow, each a number of rows of properties. */
final class PlyReader {

    private static final int LONGEST_LINE = 1000;
    private static final int MOST_HEADER_LINES = 1000;

    private final byte[] bytes;
    private final String name;
    private final List<Element> elements = new ArrayList<>();
    private PlyNumbers numbers;
    private int at;
    private int line;

    PlyReader(byte[] bytes, String name) {
        this.bytes = bytes;
        this.name = name;
    }

    /** A kind of row: its name, how many there are, its properties. */
    private record Element(String name, int count, List<Property> properties) {}

    /** A property; {@code countType} is null unless it is a list. */
    private record Property(String name, PlyType type, PlyType countType) {}

    TriangleMesh read() throws MeshReadException {
        readHeader();
        double[] xyz = null;
        int[] corners = null;
        for (Element element : elements) {
            switch (element.name) {
                case "vertex" -> xyz = vertices(element);
                case "face" -> corners = faces(element);
                default -> skip(element);
            }
        }
        if (xyz == null || corners == null) {
            throw wrong(
                    "elements vertex and face",
                    elements.stream().map(Element::name).toList() + "");
        }
        return MeshFile.mesh(xyz, corners, name);
    }

    private void readHeader() throws MeshReadException {
        nextLine();
        ByteOrder order = null;
        boolean hasFormat = false;
        for (String[] words = nextLine(); !words[0].equals("end_header"); words = nextLine()) {
            switch (words[0]) {
                case "format" -> {
                    order = format(words);
                    hasFormat = true;
                }
                case "element" -> elements.add(element(words));
                case "property" -> property(words);
                case "comment", "obj_info", "" -> {}
                default -> throw wrong("format, element, property, comment or end_header", words[0]);
            }
        }
        if (!hasFormat) {
            throw wrong("a line with the format", "none");
        }
        numbers = order == null ? new PlyNumbers.Text(bytes, at, name) : new PlyNumbers.Binary(bytes, at, order, name);
    }

    private ByteOrder format(String[] words) throws MeshReadException {
        return switch (words.length < 2 ? "" : words[1]) {
            case "ascii" -> null;
            case "binary_little_endian" -> ByteOrder.LITTLE_ENDIAN;
            case "binary_big_endian" -> ByteOrder.BIG_ENDIAN;
            default -> throw wrong("format ascii, binary_little_endian or binary_big_endian", String.join(" ", words));
        };
    }

    private Element element(String[] words) throws MeshReadException {
        if (words.length != 3) {
            throw wrong("element name count", String.join(" ", words));
        }
        try {
            int count = Integer.parseInt(words[2]);
            if (count >= 0 && count <= 3 * TriangleMesh.MOST_TRIANGLES) {
                return new Element(words[1], count, new ArrayList<>());
            }
        } catch (NumberFormatException e) {
            throw new MeshReadException(name, "line " + line, "a count", words[2], e);
        }
        throw wrong("a count from 0 to " + 3 * TriangleMesh.MOST_TRIANGLES, words[2]);
    }

    private void property(String[] words) throws MeshReadException {
        if (elements.isEmpty()) {
            throw wrong("an element before its properties", String.join(" ", words));
        }
        List<Property> properties = elements.get(elements.size() - 1).properties;
        if (words.length == 3) {
            properties.add(new Property(words[2], type(words[1]), null));
        } else if (words.length == 5 && words[1].equals("list")) {
            properties.add(new Property(words[4], type(words[3]), type(words[2])));
        } else {
            throw wrong("property type name, or property list type type name", String.join(" ", words));
        }
    }

    private PlyType type(String word) throws MeshReadException {
        return PlyType.of(word).orElseThrow(() -> wrong("a type of number", word));
    }

    private double[] vertices(Element element) throws MeshReadException {
        int[] columns = new int[3];
        for (int axis = 0; axis < 3; axis++) {
            columns[axis] = column(element, String.valueOf("xyz".charAt(axis)));
        }
        numbers.requireRows(element.count, leastBytes(element));
        double[] xyz = new double[3 * element.count];
        double[] row = new double[element.properties.size()];
        for (int n = 0; n < element.count; n++) {
            for (int column = 0; column < row.length; column++) {
                Property property = element.properties.get(column);
                if (property.countType != null) {
                    skipList(property);
                } else {
                    row[column] = numbers.next(property.type);
                }
            }
            for (int axis = 0; axis < 3; axis++) {
                xyz[3 * n + axis] = row[columns[axis]];
            }
        }
        return xyz;
    }

    private int column(Element element, String wanted) throws MeshReadException {
        for (int n = 0; n < element.properties.size(); n++) {
            if (element.properties.get(n).name.equals(wanted) && element.properties.get(n).countType == null) {
                return n;
            }
        }
        throw wrong("a property " + wanted + " of " + element.name, "none");
    }

    private int[] faces(Element element) throws MeshReadException {
        numbers.requireRows(element.count, leastBytes(element));
        int[] corners = new int[Math.max(3, 3 * element.count)];
        int used = 0;
        boolean hasCorners = false;
        for (int n = 0; n < element.count; n++) {
            for (Property property : element.properties) {
                boolean isCorners = property.name.equals("vertex_indices") || property.name.equals("vertex_index");
                if (property.countType == null) {
                    numbers.next(property.type);
                } else if (!isCorners) {
                    skipList(property);
                } else {
                    hasCorners = true;
                    int many = listLength(property);
                    int first = 0;
                    int before = 0;
                    for (int c = 0; c < many; c++) {
                        int index = index(property);
                        if (c >= 2) {
                            if (used + 3 > 3 * TriangleMesh.MOST_TRIANGLES) {
                                throw wrong("at most " + TriangleMesh.MOST_TRIANGLES + " triangles", "more");
                            }
                            corners = used + 3 > corners.length ? Arrays.copyOf(corners, 2 * corners.length) : corners;
                            corners[used++] = first;
                            corners[used++] = before;
                            corners[used++] = index;
                        }
                        first = c == 0 ? index : first;
                        before = index;
                    }
                }
            }
        }
        if (!hasCorners && element.count > 0) {
            throw wrong("a list vertex_indices of face", "none");
        }
        return Arrays.copyOf(corners, used);
    }

    private int index(Property property) throws MeshReadException {
        double value = numbers.next(property.type);
        if (value != Math.rint(value) || Math.abs(value) > Integer.MAX_VALUE) {
            throw wrong("the index of a vertex", String.valueOf(value));
        }
        return (int) value;
    }

    private int listLength(Property property) throws MeshReadException {
        double many = numbers.next(property.countType);
        if (!(many >= 0 && many <= 100_000 && many == Math.rint(many))) {
            throw wrong("the length of a list, at most 100000", String.valueOf(many));
        }
        return (int) many;
    }

    private void skipList(Property property) throws MeshReadException {
        int many = listLength(property);
        for (int n = 0; n < many; n++) {
            numbers.next(property.type);
        }
    }

    private void skip(Element element) throws MeshReadException {
        numbers.requireRows(element.count, leastBytes(element));
        for (int n = 0; n < element.count; n++) {
            for (Property property : element.properties) {
                if (property.countType == null) {
                    numbers.next(property.type);
                } else {
                    skipList(property);
                }
            }
        }
    }

    private static int leastBytes(Element element) {
        return element.properties.stream()
                .mapToInt(p -> p.countType == null ? p.type.bytes() : p.countType.bytes())
                .sum();
    }

    private String[] nextLine() throws MeshReadException {
        int from = at;
        while (at < bytes.length && bytes[at] != '\n' && at - from <= LONGEST_LINE) {
            at++;
        }
        if (at >= bytes.length || bytes[at] != '\n' || ++line > MOST_HEADER_LINES) {
            throw new MeshReadException(name, "line " + (line + 1), "a header that ends with end_header", "none", null);
        }
        String text = new String(bytes, from, at - from, StandardCharsets.ISO_8859_1).strip();
        at++;
        return text.split("\\s+");
    }

    private MeshReadException wrong(String expected, String got) {
        String place = numbers == null ? "line " + line : numbers.place();
        return new MeshReadException(name, place, expected, got, null);
    }
}
