package linehold.controller.statespace;

import java.lang.reflect.Array;
import java.lang.reflect.Field;
import java.lang.reflect.Modifier;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.IdentityHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;

/**
 * Every word a controller remembers, found by walking its objects: each field that is not final, and the content of each
 * array. So it can be put back to where it was, and a field that somebody adds is part of that by itself.
 */
final class ControllerMemory {
    /** One remembered field and the path by which it is reached. */
    record Slot(String path, Object owner, Field field, Object[] choices) {
        long get() throws IllegalAccessException {
            Class<?> type = field.getType();
            if (type == boolean.class) {
                return field.getBoolean(owner) ? 1 : 0;
            }
            if (type == double.class) {
                return Double.doubleToRawLongBits(field.getDouble(owner));
            }
            return choices == null ? field.getLong(owner) : ((Enum<?>) field.get(owner)).ordinal();
        }

        void set(long word) throws IllegalAccessException {
            Class<?> type = field.getType();
            if (type == boolean.class) {
                field.setBoolean(owner, word != 0);
            } else if (type == double.class) {
                field.setDouble(owner, Double.longBitsToDouble(word));
            } else if (type == long.class) {
                field.setLong(owner, word);
            } else if (type == int.class) {
                field.setInt(owner, (int) word);
            } else {
                field.set(owner, choices[(int) word]);
            }
        }
    }

    /** What was remembered at one moment. */
    record Saved(long[] words, List<Object> arrays) {}

    private final Set<String> leftOut;
    private final List<Slot> slots = new ArrayList<>();
    private final List<Object> arrays = new ArrayList<>();
    private final List<String> arrayPaths = new ArrayList<>();
    private final Map<Object, Boolean> seen = new IdentityHashMap<>();

    /** @param leftOut paths of what is written whole at every step before it is read, or never changes */
    ControllerMemory(Object controller, Set<String> leftOut) {
        this.leftOut = leftOut;
        walk("", controller);
    }

    private void walk(String path, Object object) {
        if (seen.put(object, true) != null) {
            return;
        }
        Field[] fields = object.getClass().getDeclaredFields();
        Arrays.sort(fields, Comparator.comparing(Field::getName));
        for (Field field : fields) {
            if (Modifier.isStatic(field.getModifiers())) {
                continue;
            }
            field.setAccessible(true);
            String name = path + field.getName();
            if (leftOut.contains(name)) {
                continue;
            }
            if (Modifier.isFinal(field.getModifiers())) {
                follow(name, read(field, object));
            } else {
                Class<?> type = field.getType();
                if (!type.isEnum()
                        && !List.of(long.class, int.class, double.class, boolean.class)
                                .contains(type)) {
                    throw new AssertionError("cannot remember " + name + " of " + type);
                }
                slots.add(new Slot(name, object, field, type.getEnumConstants()));
            }
        }
    }

    private void follow(String name, Object value) {
        if (value instanceof long[] || value instanceof double[]) {
            arrays.add(value);
            arrayPaths.add(name);
        } else if (remembers(value)) {
            walk(name + ".", value);
        }
    }

    /** The calibration, the transition table and enums never change. */
    private static boolean remembers(Object value) {
        return value != null
                && value.getClass().getName().startsWith("linehold.controller.")
                && !value.getClass().getName().startsWith("linehold.controller.calibration.")
                && !(value instanceof Enum);
    }

    private static Object read(Field field, Object object) {
        try {
            return field.get(object);
        } catch (IllegalAccessException e) {
            throw new AssertionError(e);
        }
    }

    /** The path of each word of {@link Saved#words}. */
    List<String> paths() {
        return slots.stream().map(Slot::path).toList();
    }

    /** The paths of the arrays. */
    List<String> arrayPaths() {
        return arrayPaths;
    }

    Saved save() {
        try {
            long[] words = new long[slots.size()];
            for (int i = 0; i < words.length; i++) {
                words[i] = slots.get(i).get();
            }
            List<Object> copies = new ArrayList<>(arrays.size());
            for (Object array : arrays) {
                copies.add(array instanceof long[] longs ? longs.clone() : ((double[]) array).clone());
            }
            return new Saved(words, copies);
        } catch (IllegalAccessException e) {
            throw new AssertionError(e);
        }
    }

    /** Reads some of the words, each to its place. */
    void read(int[] which, long[] words) {
        try {
            for (int i : which) {
                words[i] = slots.get(i).get();
            }
        } catch (IllegalAccessException e) {
            throw new AssertionError(e);
        }
    }

    void restore(Saved saved) {
        try {
            for (int i = 0; i < saved.words().length; i++) {
                slots.get(i).set(saved.words()[i]);
            }
            for (int i = 0; i < arrays.size(); i++) {
                Object array = arrays.get(i);
                System.arraycopy(saved.arrays().get(i), 0, array, 0, Array.getLength(array));
            }
        } catch (IllegalAccessException e) {
            throw new AssertionError(e);
        }
    }
}
