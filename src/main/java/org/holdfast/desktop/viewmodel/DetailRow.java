package org.holdfast.desktop.viewmodel;

import java.util.OptionalDouble;
import java.util.function.DoubleFunction;
import org.holdfast.desktop.state.Words;
import org.holdfast.desktop.viewmodel.PartDetail.Row;
import org.holdfast.measure.Stated;

/** Makes lines of a part's tables: a number, or that it is not stated and why. */
final class DetailRow {

    static final String NOT_STATED = "not stated";

    private DetailRow() {}

    static Row of(String name, Stated stated, DoubleFunction<String> format) {
        return stated.value().isPresent()
                ? new Row(name, format.apply(stated.value().getAsDouble()), "")
                : new Row(name, NOT_STATED, stated.why());
    }

    static Row percent(String name, Stated stated) {
        return of(name, stated, Words::percent);
    }

    static Row millimetres(String name, Stated stated, int decimals) {
        return of(name, stated, mm -> Words.quantity(mm, decimals, "mm"));
    }

    static Row hounsfield(String name, Stated stated) {
        return of(name, stated, hu -> Words.quantity(hu, 0, "HU"));
    }

    /** A number with its error, such as "1.3 ± 0.2 mm". */
    static Row withError(String name, Stated stated, OptionalDouble error, int decimals, String unit) {
        return of(
                name,
                stated,
                value -> Words.number(value, decimals)
                        + (error.isPresent() ? " ± " + Words.number(error.getAsDouble(), decimals) : "")
                        + '\u2009'
                        + unit);
    }
}
