package org.holdfast.dicom;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.OutputStream;

/** Writes data elements in one of the uncompressed transfer syntaxes (PS3.5, section 7). */
final class ElementWriter {

    private static final int UNDEFINED = 0xFFFFFFFF;
    private static final int LONGEST_SHORT_FORM = 0xFFFE;

    private final TransferSyntax syntax;
    private final boolean undefinedLengths;

    ElementWriter(TransferSyntax syntax, DicomWriter.SequenceLength lengths) {
        this.syntax = syntax;
        this.undefinedLengths = lengths == DicomWriter.SequenceLength.UNDEFINED;
    }

    void write(OutputStream out, DataSet dataSet) throws IOException {
        for (Element e : dataSet.elements()) {
            boolean retiredGroupLength = (e.tag() & 0xFFFF) == 0 && e.tag() >>> 16 != 0x0002;
            if (e.isSequence()) {
                sequence(out, e);
            } else if (!retiredGroupLength) {
                value(out, e, dataSet.writtenVr(e), dataSet);
            }
        }
    }

    private void value(OutputStream out, Element e, Vr vr, DataSet dataSet) throws IOException {
        int length = Math.addExact(e.value().length, e.value().length & 1);
        // A value too long for the short form is written as UN (PS3.5, section 6.2.2, note 2).
        boolean tooLong = syntax.explicit() && !vr.hasLongLength() && length > LONGEST_SHORT_FORM;
        header(out, e.tag(), tooLong ? Vr.UN : vr, length);
        byte[] value = e.value();
        int unit = ByteOrders.unitBytes(dataSet, e.tag(), vr);
        if (syntax.bigEndian() && !tooLong && unit > 1) {
            value = value.clone();
            ByteOrders.swap(value, unit);
        }
        out.write(value);
        if (length > value.length) {
            out.write(vr.padding());
        }
    }

    private void sequence(OutputStream out, Element e) throws IOException {
        ByteArrayOutputStream body = new ByteArrayOutputStream();
        for (DataSet item : e.items()) {
            ByteArrayOutputStream inside = new ByteArrayOutputStream();
            write(inside, item);
            tag(body, Tag.ITEM);
            int32(body, undefinedLengths ? UNDEFINED : inside.size());
            inside.writeTo(body);
            if (undefinedLengths) {
                tag(body, Tag.ITEM_DELIMITATION);
                int32(body, 0);
            }
        }
        header(out, e.tag(), Vr.SQ, undefinedLengths ? UNDEFINED : body.size());
        body.writeTo(out);
        if (undefinedLengths) {
            tag(out, Tag.SEQUENCE_DELIMITATION);
            int32(out, 0);
        }
    }

    /** Tag, representation and length of an element; a length of −1 is undefined. */
    void header(OutputStream out, int tag, Vr vr, int length) throws IOException {
        tag(out, tag);
        if (!syntax.explicit()) {
            int32(out, length);
            return;
        }
        out.write(vr.name().charAt(0));
        out.write(vr.name().charAt(1));
        if (vr.hasLongLength()) {
            int16(out, 0);
            int32(out, length);
        } else {
            int16(out, length);
        }
    }

    void tag(OutputStream out, int tag) throws IOException {
        int16(out, tag >>> 16);
        int16(out, tag);
    }

    void int32(OutputStream out, int value) throws IOException {
        int16(out, syntax.bigEndian() ? value >>> 16 : value);
        int16(out, syntax.bigEndian() ? value : value >>> 16);
    }

    private void int16(OutputStream out, int value) throws IOException {
        out.write(syntax.bigEndian() ? value >>> 8 : value);
        out.write(syntax.bigEndian() ? value : value >>> 8);
    }
}
