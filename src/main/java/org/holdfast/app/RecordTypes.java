package org.holdfast.app;

import java.lang.reflect.ParameterizedType;
import java.lang.reflect.RecordComponent;
import java.lang.reflect.Type;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import org.holdfast.construct.PatchSample;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.holdfast.measure.Answer;
import org.holdfast.measure.Stated;

/** What {@link RecordWriter} and {@link RecordReader} must agree on about the shape of result records. */
final class RecordTypes {

    /** Ending of the name under which the reason stands why a value is not stated. */
    static final String WHY = "Why";

    static final String COLUMNS = "columns";
    static final String ROWS = "rows";

    private static final List<Class<?>> CELLS = List.of(
            double.class,
            int.class,
            boolean.class,
            String.class,
            OptionalDouble.class,
            OptionalInt.class,
            PatientPoint.class,
            PatientVector.class,
            Stated.class);

    private RecordTypes() {}

    /** The class of a type, of a generic one without what it is made of. */
    static Class<?> raw(Type type) {
        if (type instanceof Class<?> known) {
            return known;
        }
        if (type instanceof ParameterizedType generic) {
            return raw(generic.getRawType());
        }
        throw new IllegalArgumentException("results hold no values of type " + type);
    }

    /** What a generic type is made of. */
    static Type argument(Type type, int n) {
        if (type instanceof ParameterizedType generic) {
            return generic.getActualTypeArguments()[n];
        }
        throw new IllegalArgumentException("expected a generic type, got " + type);
    }

    /** Whether a value of the type has a reason beside it where it is not stated. */
    static boolean hasReason(Type type) {
        return raw(type) == Stated.class || raw(type) == Answer.class;
    }

    /** Whether a list of such elements is written as a table: records whose components each fit in a cell. */
    static boolean isRow(Type element) {
        return element instanceof Class<?> known
                && known.isRecord()
                && known != PatientPoint.class
                && known != PatientVector.class
                && known != Stated.class
                && Arrays.stream(known.getRecordComponents()).allMatch(RecordTypes::isCell);
    }

    private static boolean isCell(RecordComponent component) {
        Type type = component.getGenericType();
        if (raw(type) == Optional.class) {
            type = argument(type, 0);
        }
        Class<?> known = raw(type);
        return isSample(component)
                || CELLS.contains(known)
                || known.isEnum()
                || known == Double.class
                || known == Integer.class;
    }

    /** Whether a component is the place on a face, which is not written: face and settings give it again. */
    static boolean isSample(RecordComponent component) {
        return component.getType() == PatchSample.class;
    }

    /** Value of a record's component. */
    static Object value(RecordComponent component, Object of) {
        try {
            return component.getAccessor().invoke(of);
        } catch (ReflectiveOperationException e) {
            throw new IllegalStateException("a record component can always be read", e);
        }
    }
}
