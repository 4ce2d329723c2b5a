#include "alloc_texts.h"

const char job_text[] =
    "{\"quiltcut\": 1, \"title\": \"Scrap tray\", \"units\": \"in\","
    "\"fabrics\": [{\"id\": \"a\", \"name\": \"Blue\", \"width\": \"20\"},"
    "{\"id\": \"b\", \"width\": \"18\"}],"
    "\"pieces\": ["
    "{\"id\": \"A\", \"fabric\": \"a\", \"shape\": \"square\","
    "\"cut\": \"2 1/2\", \"count\": 9},"
    "{\"id\": \"B\", \"fabric\": \"a\", \"shape\": \"rectangle\","
    "\"cut\": [\"4\", \"3\"], \"count\": 5},"
    "{\"id\": \"C\", \"fabric\": \"b\", \"shape\": \"square\","
    "\"finished\": \"3\", \"count\": 4}]}";

const char dense_text[] =
    "{\"quiltcut\": 1, \"fabrics\": [{\"id\": \"a\", \"width\": \"20\"}],"
    "\"pieces\": ["
    "{\"id\": \"A\", \"fabric\": \"a\", \"shape\": \"square\","
    "\"cut\": \"2 1/2\", \"count\": 19},"
    "{\"id\": \"B\", \"fabric\": \"a\", \"shape\": \"rectangle\","
    "\"cut\": [\"4\", \"3\"], \"count\": 15},"
    "{\"id\": \"C\", \"fabric\": \"a\", \"shape\": \"rectangle\","
    "\"cut\": [\"4 1/2\", \"2\"], \"count\": 11},"
    "{\"id\": \"D\", \"fabric\": \"a\", \"shape\": \"rectangle\","
    "\"cut\": [\"6\", \"3 1/2\"], \"count\": 7},"
    "{\"id\": \"E\", \"fabric\": \"a\", \"shape\": \"rectangle\","
    "\"cut\": [\"3 1/4\", \"1 3/4\"], \"count\": 13}]}";

const char angled_text[] =
    "{\"quiltcut\": 1, \"fabrics\": [{\"id\": \"a\", \"width\": \"40\"}],"
    "\"options\": {\"objective\": [\"bought\"]},"
    "\"blocks\": [{\"block\": \"hexagon\", \"size\": \"4\", \"count\": 2,"
    "\"fabrics\": {\"hexagon\": \"a\", \"background\": \"a\"}},"
    "{\"block\": \"pinwheel\", \"size\": \"4\", \"count\": 1,"
    "\"fabrics\": {\"dark\": \"a\", \"light\": \"a\"},"
    "\"methods\": [{\"method\": \"two at a time\"}]}],"
    "\"pieces\": [{\"id\": \"A\", \"fabric\": \"a\", \"angle\": 45,"
    "\"shape\": \"parallelogram\", \"finished\": [\"2\", \"3\"],"
    "\"count\": {\"left\": 5, \"right\": 3}}],"
    "\"strip_sets\": [{\"id\": \"S\", \"angle\": 45, \"segments\": 4,"
    "\"strips\": [{\"fabric\": \"a\", \"cut\": \"2\"},"
    "{\"fabric\": \"a\", \"cut\": \"2\"}]}]}";

const char methods_text[] =
    "{\"quiltcut\": 1, \"fabrics\": [{\"id\": \"a\"}], \"blocks\": ["
    "{\"block\": \"eight-pointed star\", \"size\": \"6\", \"count\": 2,"
    "\"fabrics\": {\"star\": \"a\", \"background\": \"a\"}, \"methods\": ["
    "{\"method\": \"strip set\", \"trim\": \"1/8\"},"
    "{\"unit\": \"C\", \"method\": \"half-square triangles\"}]},"
    "{\"block\": \"snowball\", \"size\": \"6\", \"count\": 2,"
    "\"fabrics\": {\"ball\": \"a\", \"corner\": \"a\"}, \"methods\": ["
    "{\"method\": \"stitch and flip\"}]}]}";

const char steps_text[] =
    "{\"quiltcut\": 1, \"title\": \"Scrap tray\", \"fabrics\": ["
    "{\"id\": \"a\", \"width\": \"42\"}, {\"id\": \"b\", \"width\": \"42\","
    "\"print\": \"one-way\"}, {\"id\": \"c\"}],"
    "\"pieces\": [{\"id\": \"A\", \"fabric\": \"a\", \"shape\": \"square\","
    "\"finished\": \"2\", \"count\": 40}, {\"id\": \"B\", \"fabric\": \"b\","
    "\"shape\": \"rectangle\", \"cut\": [\"2\", \"3\"], \"count\": 12},"
    "{\"id\": \"C\", \"fabric\": \"a\", \"shape\": \"square\","
    "\"finished\": \"2\", \"count\": 3}],"
    "\"claimed\": [{\"fabric\": \"a\", \"length\": \"1/8 yd\"},"
    "{\"fabric\": \"b\", \"length\": \"1 yd\"}],"
    "\"steps\": [{\"do\": \"strips\", \"fabric\": \"a\", \"count\": 2,"
    "\"width\": \"2 1/4\", \"name\": \"low\"}, {\"do\": \"subcut\","
    "\"from\": \"low\", \"size\": \"2 1/2\", \"count\": 40, \"piece\": \"A\"},"
    "{\"do\": \"strips\", \"fabric\": \"b\", \"count\": 2, \"width\": \"2\","
    "\"name\": \"high\"}, {\"do\": \"subcut\", \"from\": \"high\","
    "\"size\": \"3\", \"each\": 14, \"piece\": \"B\"}, {\"do\": \"strips\","
    "\"fabric\": \"b\", \"count\": 1, \"width\": \"2\", \"name\": \"idle\"},"
    "{\"do\": \"sew\", \"strips\": [\"high\", \"idle\", \"idle\"], \"count\": "
    "2,"
    "\"width\": 5, \"name\": \"sets\"}, {\"do\": \"crosscut\", \"from\":"
    "\"sets\", \"size\": 3, \"angle\": 60, \"count\": 30, \"segment\": \"S\"}],"
    "\"strip_sets\": [{\"id\": \"S\", \"strips\": [{\"fabric\": \"b\", \"cut\":"
    "2}, {\"fabric\": \"a\", \"cut\": 3}, {\"fabric\": \"b\", \"cut\": 2}],"
    "\"spacing\": 2, \"segments\": 4}]}";

const char drawn_text[] =
    "{\"quiltcut\": 1, \"fabrics\": [{\"id\": \"a\"}], \"blocks\": [{\"size\": "
    "\"3\","
    "\"count\": 1, \"fabrics\": {\"x\": \"a\"}, \"drawing\": {\"name\": "
    "\"half\","
    "\"width\": 2, \"height\": \"1\", \"patches\": ["
    "{\"role\": \"x\", \"corners\": \"0,0 2,0 2,1\", \"turns\": 2}]}}]}";
